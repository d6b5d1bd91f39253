// SPDX-License-Identifier: Apache-2.0
#include "edge_distance.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace tidelot {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

std::size_t at(int col, int row, int cols) {
  return static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) +
         static_cast<std::size_t>(col);
}

/// Cells down or up the column to the nearest one that is not covered.
std::vector<double> along_columns(const std::vector<std::uint8_t>& covered, int cols, int rows) {
  std::vector<double> cells(covered.size(), kFar);
  for (int col = 0; col < cols; ++col) {
    double steps = kFar;
    for (int row = 0; row < rows; ++row) {
      steps = covered[at(col, row, cols)] == 0 ? 0.0 : steps + 1.0;
      cells[at(col, row, cols)] = steps;
    }
    steps = kFar;
    for (int row = rows - 1; row >= 0; --row) {
      steps = covered[at(col, row, cols)] == 0 ? 0.0 : steps + 1.0;
      cells[at(col, row, cols)] = std::min(cells[at(col, row, cols)], steps);
    }
  }
  return cells;
}

/// The lowest of parabolas x -> (x - c)^2 + height(c), for every x of a row.
class Envelope {
 public:
  explicit Envelope(const std::vector<double>& heights) : heights_(heights) {
    for (int c = 0; c < static_cast<int>(heights.size()); ++c) {
      if (std::isfinite(height(c))) {
        add(c);
      }
    }
  }

  /// Rows are asked from left to right.
  double operator()(int x) {
    if (columns_.empty()) {
      return kFar;
    }
    while (next_ + 1 < columns_.size() && starts_[next_ + 1] <= x) {
      ++next_;
    }
    const double away = x - columns_[next_];
    return away * away + height(columns_[next_]);
  }

 private:
  [[nodiscard]] double height(int c) const { return heights_[static_cast<std::size_t>(c)]; }

  /// Where the parabola of c comes to lie below that of an earlier column.
  [[nodiscard]] double crossing(int earlier, int c) const {
    const double a = earlier;
    const double b = c;
    return ((height(c) + b * b) - (height(earlier) + a * a)) / (2.0 * (b - a));
  }

  void add(int c) {
    while (!columns_.empty() && crossing(columns_.back(), c) <= starts_.back()) {
      columns_.pop_back();
      starts_.pop_back();
    }
    starts_.push_back(columns_.empty() ? -kFar : crossing(columns_.back(), c));
    columns_.push_back(c);
  }

  const std::vector<double>& heights_;
  std::vector<int> columns_;
  std::vector<double> starts_;
  std::size_t next_ = 0;
};

}  // namespace

std::vector<double> edge_distance(const std::vector<std::uint8_t>& covered, int cols, int rows) {
  std::vector<double> cells = along_columns(covered, cols, rows);
  std::vector<double> squares(static_cast<std::size_t>(cols));
  for (int row = 0; row < rows; ++row) {
    const auto from = cells.begin() + static_cast<std::ptrdiff_t>(at(0, row, cols));
    std::transform(from, from + cols, squares.begin(), [](double d) { return d * d; });
    Envelope lowest(squares);
    for (int col = 0; col < cols; ++col) {
      *(from + col) = std::sqrt(lowest(col));
    }
  }
  return cells;
}

}  // namespace tidelot
