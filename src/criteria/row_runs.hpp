// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>

#include "tidelot/core/grid.hpp"
#include "tidelot/core/grid_vector.hpp"
#include "tidelot/criteria/closed_mask.hpp"

namespace tidelot {

/// Collects runs of cells, however many of them overlap.
class RowRuns {
 public:
  explicit RowRuns(const Grid& grid) : grid_(grid) {}
  /// Columns first..last of a row; what lies outside the grid is cut off.
  void add(int row, int first, int last);
  /// What was collected: in order, a cell in one run at most.
  [[nodiscard]] GridVector<CellRun> merged() &&;

 private:
  void merge();

  const Grid& grid_;
  GridVector<CellRun> runs_;
  std::size_t merge_at_ = std::size_t{1} << 20U;  ///< runs
};

/// Smallest column whose centre is at or east of x; 0..cols.
[[nodiscard]] int first_centre_from(const Grid& grid, double x);

/// An inclusive range of columns or rows, clipped to the grid; first > last: none.
struct CellRange {
  int first;
  int last;
};
/// Columns whose closed cells share a point with [low, high] in x.
[[nodiscard]] CellRange columns_touching(const Grid& grid, double low, double high);
/// Rows whose closed cells share a point with [low, high] in y.
[[nodiscard]] CellRange rows_touching(const Grid& grid, double low, double high);

}  // namespace tidelot
