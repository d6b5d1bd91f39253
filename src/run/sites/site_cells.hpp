// SPDX-License-Identifier: Apache-2.0
// The cells that a site covers.
#pragma once

#include "sites/coverage.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/report/bay.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// A ranked site of a finished run, as far as another crop or another depth on it needs it.
[[nodiscard]] Site site_of(const BaySite& there);

/// The cells around a site.
[[nodiscard]] Tile tile_around(const Grid& grid, const Site& site);

/// Calls visit(i, share) for every cell of a tile that the site covers: its index in the tile and
/// the share of it that is covered, row by row.
template <typename Visit>
void for_each_cell_under(const Site& site, const Grid& grid, const Tile& tile, Visit&& visit) {
  for_each_covered(in_cells(site.corners_xy, grid),
                   [&](int row, int first, int last, double share) {
                     for (int col = first; col <= last; ++col) {
                       const int x = col - tile.col0, y = row - tile.row0;
                       if (x >= 0 && x < tile.cols && y >= 0 && y < tile.rows) {
                         visit(static_cast<std::size_t>(y) * static_cast<std::size_t>(tile.cols) +
                                   static_cast<std::size_t>(x),
                               share);
                       }
                     }
                   });
}

}  // namespace tidelot::run
