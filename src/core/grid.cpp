// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "tidelot/core/error.hpp"

namespace tidelot {
namespace {

/// A cell's count from the grid's edge as an int. Farther than an int reaches, and nowhere (NaN),
/// is outside any grid: converting such a double would be undefined.
int counted(double cells) {
  constexpr double kFar = std::numeric_limits<int>::max();
  return std::isnan(cells) ? -1 : static_cast<int>(std::clamp(std::floor(cells), -kFar, kFar));
}

}  // namespace

Cell Grid::cell_of(XY p) const {
  return {counted((p.x - west) / cell_m), counted((north - p.y) / cell_m)};
}

std::vector<Tile> tiles_of(const Grid& grid, int side) {
  std::vector<Tile> tiles;
  for (int row = 0; row < grid.rows; row += side) {
    for (int col = 0; col < grid.cols; col += side) {
      tiles.push_back({col, row, std::min(side, grid.cols - col), std::min(side, grid.rows - row)});
    }
  }
  return tiles;
}

Grid covering_grid(XY lower_left, XY upper_right, double cell_m, std::string crs,
                   std::size_t max_cells) {
  const bool box = lower_left.x <= upper_right.x && lower_left.y <= upper_right.y &&
                   std::isfinite(upper_right.x - lower_left.x) &&
                   std::isfinite(upper_right.y - lower_left.y);
  if (!box) {
    throw Error(Fault::plan, fmt::format("area.bounds: the area has no place in {}; check bounds, "
                                         "outline and crs",
                                         crs));
  }
  const double west = std::floor(lower_left.x / cell_m) * cell_m;
  const double south = std::floor(lower_left.y / cell_m) * cell_m;
  const double east = std::ceil(upper_right.x / cell_m) * cell_m;
  const double north = std::ceil(upper_right.y / cell_m) * cell_m;
  const double cols = std::max(1.0, std::round((east - west) / cell_m));
  const double rows = std::max(1.0, std::round((north - south) / cell_m));
  constexpr double kMostAlong = std::numeric_limits<int>::max();
  if (!(cols * rows <= static_cast<double>(max_cells)) || cols > kMostAlong || rows > kMostAlong) {
    throw Error(Fault::plan,
                fmt::format("area.cell_m: {} m cells make a grid of {:.0f} x {:.0f}, more than {} "
                            "cells; use larger cells or a smaller area",
                            cell_m, cols, rows, max_cells));
  }
  return {west, north, cell_m, static_cast<int>(cols), static_cast<int>(rows), std::move(crs)};
}

}  // namespace tidelot
