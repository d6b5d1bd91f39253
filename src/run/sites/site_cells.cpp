// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_cells.hpp"

#include <algorithm>

namespace tidelot::run {

Site site_of(const BaySite& there) {
  Site site;
  site.name = there.name;
  site.centre = there.centre;
  site.centre_xy = there.centre_xy;
  site.gear.middle = there.gear_middle;
  std::copy_n(there.corners_xy.begin(), site.corners_xy.size(), site.corners_xy.begin());
  site.angle_deg = there.angle_deg;
  site.layout.lines = there.lines;
  site.layout.usable_m = there.usable_m;
  site.layout.line_m = there.account.line_m;
  site.depth_min_m = there.depth_min_m;
  site.depth_max_m = there.depth_max_m;
  return site;
}

Tile tile_around(const Grid& grid, const Site& site) {
  int west = grid.cols, east = -1, north = grid.rows, south = -1;
  for (const XY corner : site.corners_xy) {
    const Cell cell = grid.cell_of(corner);
    west = std::min(west, cell.col);
    east = std::max(east, cell.col);
    north = std::min(north, cell.row);
    south = std::max(south, cell.row);
  }
  west = std::max(west, 0);
  north = std::max(north, 0);
  east = std::min(east, grid.cols - 1);
  south = std::min(south, grid.rows - 1);
  return {west, north, std::max(0, east - west + 1), std::max(0, south - north + 1)};
}

}  // namespace tidelot::run
