// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tidelot/core/error.hpp"

namespace tidelot {

Cell Grid::cell_of(XY p) const {
  return {static_cast<int>(std::floor((p.x - west) / cell_m)),
          static_cast<int>(std::floor((north - p.y) / cell_m))};
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
  const double west = std::floor(lower_left.x / cell_m) * cell_m;
  const double south = std::floor(lower_left.y / cell_m) * cell_m;
  const double east = std::ceil(upper_right.x / cell_m) * cell_m;
  const double north = std::ceil(upper_right.y / cell_m) * cell_m;
  const double cols = std::max(1.0, std::round((east - west) / cell_m));
  const double rows = std::max(1.0, std::round((north - south) / cell_m));
  if (!(cols * rows <= static_cast<double>(max_cells))) {
    throw Error(Fault::plan,
                fmt::format("area.cell_m: {} m cells make a grid of {:.0f} x {:.0f}, more than {} "
                            "cells; use larger cells or a smaller area",
                            cell_m, cols, rows, max_cells));
  }
  return {west, north, cell_m, static_cast<int>(cols), static_cast<int>(rows), std::move(crs)};
}

}  // namespace tidelot
