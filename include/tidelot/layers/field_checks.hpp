// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "tidelot/core/grid.hpp"

namespace tidelot {

/// Readings of one property held against its layer as it was before they changed it.
struct FieldResidual {
  std::string property;   ///< "temperature", "salinity", "kd", "nitrogen", "current",
                          ///< "depth_low_water"
  std::string unit;       ///< canonical
  std::size_t count = 0;  ///< readings
  double bias = 0.0;      ///< mean of reading less layer
  double rmse = 0.0;
  std::string done;  ///< what became of the layer, one phrase
};

/// A reading in the area's water.
struct FieldVisit {
  XY at;  ///< in the grid's system
  int year = 0;
  int month = 1;  ///< 1..12
  int day = 1;
};

struct FieldChecks {
  std::vector<FieldResidual> residuals;  ///< one a property that was read, in a fixed order
  std::vector<FieldVisit> visits;        ///< in the order of the table
};

}  // namespace tidelot
