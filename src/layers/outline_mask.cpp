// SPDX-License-Identifier: Apache-2.0
#include "outline_mask.hpp"

#include <algorithm>
#include <cmath>

namespace tidelot {
namespace {

/// Where each row's line of centres crosses the edges of a ring.
void add_crossings(const Grid& grid, const Path& ring, std::vector<std::vector<double>>& rows) {
  for (std::size_t i = 1; i < ring.size(); ++i) {
    const XY a = ring[i - 1];
    const XY b = ring[i];
    const double top = (grid.north - std::max(a.y, b.y)) / grid.cell_m - 1.5;
    const double bottom = (grid.north - std::min(a.y, b.y)) / grid.cell_m + 0.5;
    const int first = static_cast<int>(std::clamp(std::floor(top), 0.0, double{1} * grid.rows));
    const int end = static_cast<int>(std::clamp(std::ceil(bottom), 0.0, double{1} * grid.rows));
    for (int row = first; row < end; ++row) {
      const double y = grid.centre(0, row).y;
      if ((a.y > y) != (b.y > y)) {
        rows[static_cast<std::size_t>(row)].push_back(a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y));
      }
    }
  }
}

}  // namespace

OutlineMask::OutlineMask(const Grid& grid, const std::vector<Feature>& features)
    : given_(true), rows_(static_cast<std::size_t>(grid.rows)) {
  for (const Feature& feature : features) {
    for (const Polygon& polygon : feature.shape.polygons) {
      add(grid, polygon);
    }
  }
}

void OutlineMask::add(const Grid& grid, const Polygon& polygon) {
  std::vector<std::vector<double>> crossings(rows_.size());
  add_crossings(grid, polygon.outer, crossings);
  for (const Path& hole : polygon.holes) {
    add_crossings(grid, hole, crossings);
  }
  for (std::size_t row = 0; row < rows_.size(); ++row) {
    auto& xs = crossings[row];
    std::sort(xs.begin(), xs.end());
    for (std::size_t i = 1; i < xs.size(); i += 2) {
      rows_[row].emplace_back(xs[i - 1], xs[i]);
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
