// SPDX-License-Identifier: Apache-2.0
#include "outline_mask.hpp"

#include "row_stretches.hpp"

namespace tidelot {

OutlineMask::OutlineMask(const Grid& grid, const std::vector<Feature>& features)
    : given_(true), rows_(static_cast<std::size_t>(grid.rows)) {
  for (const Feature& feature : features) {
    for (const Polygon& polygon : feature.shape.polygons) {
      each_stretch(grid, polygon, [&](int row, Stretch stretch) {
        rows_[static_cast<std::size_t>(row)].push_back(stretch);
      });
    }
  }
}

std::vector<std::uint8_t> OutlineMask::inside(const Grid& grid, const Tile& tile) const {
  std::vector<std::uint8_t> mask(tile.size(), given_ ? 0 : 1);
  for (int row = 0; given_ && row < tile.rows; ++row) {
    const auto from = mask.begin() + static_cast<std::ptrdiff_t>(row) * tile.cols;
    for (const auto& [west, east] : rows_[static_cast<std::size_t>(tile.row0 + row)]) {
      for (int col = 0; col < tile.cols; ++col) {
        const double x = grid.centre(tile.col0 + col, tile.row0 + row).x;
        if (x >= west && x < east) {
          *(from + col) = 1;
        }
      }
    }
  }
  return mask;
}

}  // namespace tidelot
