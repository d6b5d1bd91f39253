// SPDX-License-Identifier: Apache-2.0
#include "criteria/row_runs.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace tidelot {
namespace {

/// Floor as an int within [-2, count + 1], so that shapes far away cannot overflow.
int clamped_floor(double value, int count) {
  return static_cast<int>(std::floor(std::clamp(value, -2.0, count + 1.0)));
}

}  // namespace

void RowRuns::add(int row, int first, int last) {
  first = std::max(first, 0);
  last = std::min(last, grid_.cols - 1);
  if (row < 0 || row >= grid_.rows || first > last) {
    return;
  }
  runs_.push_back({row, first, last});
  if (runs_.size() >= merge_at_) {
    merge();
    merge_at_ = std::max(merge_at_, 2 * runs_.size());
  }
}

/// Runs of a row that overlap or touch become one.
void RowRuns::merge() {
  std::sort(runs_.begin(), runs_.end(), [](const CellRun& a, const CellRun& b) {
    return std::tie(a.row, a.first) < std::tie(b.row, b.first);
  });
  std::size_t kept = 0;
  for (const CellRun& run : runs_) {
    if (kept > 0 && runs_[kept - 1].row == run.row && run.first <= runs_[kept - 1].last + 1) {
      runs_[kept - 1].last = std::max(runs_[kept - 1].last, run.last);
    } else {
      runs_[kept++] = run;
    }
  }
  runs_.resize(kept);
}

GridVector<CellRun> RowRuns::merged() && {
  merge();
  return std::move(runs_);
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
