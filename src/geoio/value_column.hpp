// SPDX-License-Identifier: Apache-2.0
// Where the depths of a layer of shapes stand.
#pragma once

#include <string>

#include "vector_layer.hpp"

namespace tidelot::geoio {

/// What of a feature is its value.
struct ValueColumn {
  int field = -1;        ///< -1: the height of its point
  std::string of;        ///< for people
  std::string unit;      ///< "" where the file does not say
  std::string positive;  ///< "down" in a chart, else ""
};

/// The plan's field; in the chart layers DEPARE and DRGARE DRVAL1, the shallow limit, and in SOUNDG
/// the depth of a sounding; else the height of 3-D points; else the one field named depth, z or
/// elevation. Throws Error(input) where none of these is there, where the field holds no numbers,
/// and for a chart that is not in metres.
[[nodiscard]] ValueColumn value_column(const InputFile& input, const VectorLayer& opened);

/// NaN where the feature has none.
[[nodiscard]] double value_in(const ValueColumn& column, const OGRFeature& feature,
                              const OGRGeometry& geometry);

}  // namespace tidelot::geoio
