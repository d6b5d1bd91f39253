// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>

#include "tidelot/core/geometry.hpp"
#include "tidelot/core/grid.hpp"

namespace tidelot {

/// A stretch of a row of the grid: centres with west <= x < east.
struct Stretch {
  double west = 0.0;
  double east = 0.0;
};

/// Tells the stretches of rows whose centres lie inside a polygon, from north to south and from
/// west to east. The same rule as contains().
void each_stretch(const Grid& grid, const Polygon& polygon,
                  const std::function<void(int row, Stretch stretch)>& tell);

}  // namespace tidelot
