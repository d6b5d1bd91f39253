// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <limits>

#include "row_stretches.hpp"
#include "surface.hpp"

namespace tidelot {
namespace {

class AreaSurface final : public Surface {
 public:
  AreaSurface(const Grid& grid, const std::vector<Shape>& areas, const std::vector<double>& values)
      : rows_(static_cast<std::size_t>(grid.rows)) {
    for (std::size_t i = 0; i < areas.size(); ++i) {
      const auto value = static_cast<float>(values[i]);
      for (const Polygon& polygon : areas[i].polygons) {
        each_stretch(grid, polygon, [&](int row, Stretch stretch) {
          rows_[static_cast<std::size_t>(row)].push_back({stretch, value});
        });
      }
    }
  }

  void sample(const Grid& grid, const Tile& tile, std::span<float> out) const override {
    std::fill(out.begin(), out.end(), std::numeric_limits<float>::quiet_NaN());
    for (int row = 0; row < tile.rows; ++row) {
      const auto cells =
          out.subspan(static_cast<std::size_t>(row) * static_cast<std::size_t>(tile.cols),
                      static_cast<std::size_t>(tile.cols));
      for (const Part& part : rows_[static_cast<std::size_t>(tile.row0 + row)]) {
        for (int col = 0; col < tile.cols; ++col) {
          const double x = grid.centre(tile.col0 + col, tile.row0 + row).x;
          float& cell = cells[static_cast<std::size_t>(col)];
          if (x >= part.stretch.west && x < part.stretch.east) {
            cell = std::fmin(cell, part.value);  // of NaN and a number, the number
          }
        }
      }
    }
  }

 private:
  struct Part {
    Stretch stretch;
    float value = 0.0F;
  };
  std::vector<std::vector<Part>> rows_;
};

}  // namespace

std::shared_ptr<const Surface> area_surface(const Grid& grid, const std::vector<Shape>& areas,
                                            const std::vector<double>& values) {
  return std::make_shared<AreaSurface>(grid, areas, values);
}

}  // namespace tidelot
