// SPDX-License-Identifier: Apache-2.0
#include "sites/along.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace tidelot {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kSteps = 1048576.0;

std::int64_t whole(double value) { return std::llround(value * kSteps); }

}  // namespace

double grid_north(const Grid& grid, Projector& grid_to_lonlat, const Geodesy& geodesy) {
  const XY middle{(grid.west + grid.east()) / 2.0, (grid.south() + grid.north) / 2.0};
  std::array<XY, 2> ends{XY{middle.x, middle.y - 500.0}, XY{middle.x, middle.y + 500.0}};
  grid_to_lonlat.forward(ends);
  const double azimuth = geodesy.azimuth_deg({ends[0].x, ends[0].y}, {ends[1].x, ends[1].y});
  return azimuth > 180.0 ? azimuth - 360.0 : azimuth;
}

void AxisMean::add(double bearing_deg) {
  if (std::isfinite(bearing_deg)) {
    cosine_ += whole(std::cos(2.0 * bearing_deg * kDegree));
    sine_ += whole(std::sin(2.0 * bearing_deg * kDegree));
  }
}

std::optional<double> AxisMean::mean() const {
  if (cosine_ == 0 && sine_ == 0) {
    return std::nullopt;
  }
  const double twice =
      std::atan2(static_cast<double>(sine_), static_cast<double>(cosine_)) / kDegree;
  return twice < 0.0 ? twice / 2.0 + 180.0 : twice / 2.0;
}

/// Sums over all cells above and to the left.
class AxisSquares {
 public:
  AxisSquares(const Grid& grid, std::span<const float> axis)
      : grid_(grid),
        sums_(static_cast<std::size_t>(grid.cols + 1) * static_cast<std::size_t>(grid.rows + 1)) {
    for (int row = 0; row < grid.rows; ++row) {
      AxisMean of_row;
      for (int col = 0; col < grid.cols; ++col) {
        of_row.add(axis[grid.index(col, row)]);
        const AxisMean& above = at(col + 1, row);
        sums_[index(col + 1, row + 1)].cosine_ = above.cosine_ + of_row.cosine_;
        sums_[index(col + 1, row + 1)].sine_ = above.sine_ + of_row.sine_;
      }
    }
  }

  [[nodiscard]] std::optional<double> around(int col, int row, int half) const {
    const int col0 = std::max(0, col - half);
    const int row0 = std::max(0, row - half);
    const int col1 = std::min(grid_.cols, col + half + 1);
    const int row1 = std::min(grid_.rows, row + half + 1);
    AxisMean sum;
    sum.cosine_ = at(col1, row1).cosine_ - at(col0, row1).cosine_ - at(col1, row0).cosine_ +
                  at(col0, row0).cosine_;
    sum.sine_ =
        at(col1, row1).sine_ - at(col0, row1).sine_ - at(col1, row0).sine_ + at(col0, row0).sine_;
    return sum.mean();
  }

 private:
  [[nodiscard]] std::size_t index(int col, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(grid_.cols + 1) +
           static_cast<std::size_t>(col);
  }
  [[nodiscard]] const AxisMean& at(int col, int row) const { return sums_[index(col, row)]; }

  const Grid& grid_;
  GridVector<AxisMean> sums_;
};

GridVector<std::int16_t> degrees_along(const Grid& grid, std::span<const float> axis,
                                       double grid_north_deg, const SiteSize& size) {
  if (axis.empty()) {
    return {};
  }
  const AxisSquares squares(grid, axis);
  const int half = static_cast<int>(size.length_m / grid.cell_m / 2.0);
  GridVector<std::int16_t> degrees(grid.size(), -1);
  for (int row = 0; row < grid.rows; ++row) {
    for (int col = 0; col < grid.cols; ++col) {
      if (const auto mean = squares.around(col, row, half)) {
        const int degree = static_cast<int>(std::lround(*mean - grid_north_deg));
        degrees[grid.index(col, row)] = static_cast<std::int16_t>((degree % 180 + 180) % 180);
      }
    }
  }
  return degrees;
}

}  // namespace tidelot
