// SPDX-License-Identifier: Apache-2.0
#include "sites/ceiling.hpp"

#include <algorithm>
#include <cmath>

#include "sites/field.hpp"

namespace tidelot {
namespace {

/// Bytes of a block that are looked at, and of what its user makes of it.
constexpr std::size_t kBytesOfBlock = 64;

/// Of every value the best among those up to `reach` away along a line of `count` values that lie
/// `step` apart; beyond its ends lies `beyond`.
template <typename Best>
void spread_along(GridVector<double>& values, std::size_t first, std::size_t step, int count,
                  int reach, double beyond, Best best) {
  std::vector<double> line(static_cast<std::size_t>(count + 2 * reach), beyond);
  for (int i = 0; i < count; ++i) {
    line[static_cast<std::size_t>(reach + i)] = values[first + static_cast<std::size_t>(i) * step];
  }
  for (int i = 0; i < count; ++i) {
    double found = line[static_cast<std::size_t>(i)];
    for (int k = 1; k <= 2 * reach; ++k) {
      found = best(found, line[static_cast<std::size_t>(i + k)]);
    }
    values[first + static_cast<std::size_t>(i) * step] = found;
  }
}

template <typename Best>
GridVector<double> spread(GridVector<double> values, int cols, int rows, int reach, double beyond,
                          Best best) {
  const auto width = static_cast<std::size_t>(cols);
  for (int row = 0; row < rows; ++row) {
    spread_along(values, static_cast<std::size_t>(row) * width, 1, cols, reach, beyond, best);
  }
  for (int col = 0; col < cols; ++col) {
    spread_along(values, static_cast<std::size_t>(col), width, rows, reach, beyond, best);
  }
  return values;
}

}  // namespace

Ceiling::Ceiling(const Grid& grid)
    : cols_((grid.cols + kSide - 1) / kSide),
      rows_((grid.rows + kSide - 1) / kSide),
      most_(static_cast<std::size_t>(cols_) * static_cast<std::size_t>(rows_), 0.0),
      least_(most_.size(), -kNone) {
  // A block that the grid cuts off holds what lies beyond it.
  for (int row = 0; row < rows_ && grid.cols % kSide != 0; ++row) {
    add_other(grid.cols - 1, row * kSide);
  }
  for (int col = 0; col < cols_ && grid.rows % kSide != 0; ++col) {
    add_other(col * kSide, grid.rows - 1);
  }
}

void Ceiling::add_good(int col, int row, double suitability_yield) {
  const double product = std::isnan(suitability_yield) ? 0.0 : suitability_yield;
  const std::size_t block = block_of(col, row);
  most_[block] = product > most_[block] ? product : most_[block];
  least_[block] = product < least_[block] ? product : least_[block];
}

void Ceiling::for_each_block(int reach_cells, const std::function<void(const Block&)>& use) const {
  const int reach = (reach_cells + kSide - 1) / kSide;
  const auto larger = [](double a, double b) { return std::max(a, b); };
  const auto smaller = [](double a, double b) { return std::min(a, b); };
  const GridVector<double> most = spread(most_, cols_, rows_, reach, 0.0, larger);
  const GridVector<double> least = spread(least_, cols_, rows_, reach, kNone, smaller);
  std::size_t i = 0;
  for (int row = 0; row < rows_; ++row) {
    for (int col = 0; col < cols_; ++col, ++i) {
      use({whole_of(most[i]), whole_of(least[i]), row * kSide, col * kSide});
    }
    walked_over(static_cast<std::size_t>(cols_) * kBytesOfBlock);
  }
}

}  // namespace tidelot
