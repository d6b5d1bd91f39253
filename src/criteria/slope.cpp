// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/slope.hpp"

#include <cmath>
#include <limits>
#include <numbers>

namespace tidelot {
namespace {

constexpr double kDegrees = 180.0 / std::numbers::pi;

}  // namespace

GridVector<float> bed_slope(const Grid& grid, std::span<const float> depth, double scale) {
  GridVector<float> slope(grid.size(), std::numeric_limits<float>::quiet_NaN());
  const double run = 8.0 * grid.cell_m / scale;
  for (int row = 1; row + 1 < grid.rows; ++row) {
    for (int col = 1; col + 1 < grid.cols; ++col) {
      const auto at = [&](int right, int down) {
        return static_cast<double>(depth[grid.index(col + right, row + down)]);
      };
      const double across =
          (at(1, -1) + 2.0 * at(1, 0) + at(1, 1)) - (at(-1, -1) + 2.0 * at(-1, 0) + at(-1, 1));
      const double down =
          (at(-1, 1) + 2.0 * at(0, 1) + at(1, 1)) - (at(-1, -1) + 2.0 * at(0, -1) + at(1, -1));
      if (!std::isnan(at(0, 0))) {
        slope[grid.index(col, row)] =
            static_cast<float>(kDegrees * std::atan(std::hypot(across, down) / run));
      }
    }
  }
  return slope;
}

}  // namespace tidelot
