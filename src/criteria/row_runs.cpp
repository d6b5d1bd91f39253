// SPDX-License-Identifier: Apache-2.0
#include "criteria/row_runs.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace tidelot {
namespace {

constexpr std::size_t kFlush = std::size_t{1} << 20U;  // bounds the memory at some 12 MB

/// Floor as an int within [-2, count + 1], so that shapes far away cannot overflow.
int clamped_floor(double value, int count) {
  return static_cast<int>(std::floor(std::clamp(value, -2.0, count + 1.0)));
}

}  // namespace

RowRuns::RowRuns(const Grid& grid, int bit, std::span<std::uint32_t> mask)
    : grid_(grid), bit_(std::uint32_t{1} << static_cast<unsigned>(bit)), mask_(mask) {}

void RowRuns::add(int row, int first, int last) {
  first = std::max(first, 0);
  last = std::min(last, grid_.cols - 1);
  if (row < 0 || row >= grid_.rows || first > last) {
    return;
  }
  runs_.push_back({row, first, last});
  if (runs_.size() >= kFlush) {
    finish();
  }
}

void RowRuns::finish() {
  std::sort(runs_.begin(), runs_.end(), [](const Run& a, const Run& b) {
    return std::tie(a.row, a.first) < std::tie(b.row, b.first);
  });
  int row = -1;
  int next = 0;  // first column of the row that no earlier run has marked
  for (const Run& run : runs_) {
    next = run.row == row ? std::max(next, run.first) : run.first;
    row = run.row;
    for (; next <= run.last; ++next) {
      mask_[grid_.index(next, row)] |= bit_;
    }
  }
  runs_.clear();
}

int first_centre_from(const Grid& grid, double x) {
  int col = std::max(0, clamped_floor((x - grid.west) / grid.cell_m - 0.5, grid.cols) - 1);
  while (col < grid.cols && grid.centre(col, 0).x < x) {
    ++col;
  }
  return std::min(col, grid.cols);
}

// The edges are compared as the grid computes them, so that a shape drawn on cell edges touches the
// cells on both sides whatever the division rounds to.
CellRange columns_touching(const Grid& grid, double low, double high) {
  int first = std::max(0, clamped_floor((low - grid.west) / grid.cell_m, grid.cols) - 1);
  while (first < grid.cols && grid.west + (first + 1) * grid.cell_m < low) {
    ++first;
  }
  int last =
      std::min(grid.cols - 1, clamped_floor((high - grid.west) / grid.cell_m, grid.cols) + 1);
  while (last >= 0 && grid.west + last * grid.cell_m > high) {
    --last;
  }
  return {first, last};
}

CellRange rows_touching(const Grid& grid, double low, double high) {
  int first = std::max(0, clamped_floor((grid.north - high) / grid.cell_m, grid.rows) - 1);
  while (first < grid.rows && grid.north - (first + 1) * grid.cell_m > high) {
    ++first;
  }
  int last =
      std::min(grid.rows - 1, clamped_floor((grid.north - low) / grid.cell_m, grid.rows) + 1);
  while (last >= 0 && grid.north - last * grid.cell_m < low) {
    --last;
  }
  return {first, last};
}

}  // namespace tidelot
