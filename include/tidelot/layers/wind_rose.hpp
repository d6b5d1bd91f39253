// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "tidelot/core/csv.hpp"

namespace tidelot {

/// Wind of one class of speeds out of one sector.
struct WindClass {
  double speed = 0.0;  ///< m/s, mean of the class, at 10 m
  double share = 0.0;  ///< of all time, 0..1
};

/// One sector of the compass.
struct WindSector {
  double from_deg = 0.0;  ///< middle of the sector, where the wind comes from, clockwise from north
  std::vector<WindClass> classes;
  /// Speed exceeded once a year and once in fifty years on average, m/s at 10 m; 0: not given.
  double speed_1y = 0.0;
  double speed_50y = 0.0;
};

/// Evenly spaced sectors round the compass, by direction. What is missing from a whole is calm.
struct WindRose {
  std::vector<WindSector> sectors;
  double calm = 0.0;  ///< share of time, 0..1
};

/// From a table with the columns direction (degrees, from), speed (m/s) and share (0..1) or
/// percent; one row a direction and class of speeds. Optional columns speed_1y and speed_50y, the
/// same in all rows of a direction. height_m: of the wind above the sea; brought to 10 m by the
/// one-seventh power law. Throws std::invalid_argument naming the row or the column.
[[nodiscard]] WindRose wind_rose(const CsvTable& table, double height_m);

}  // namespace tidelot
