// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"

namespace tidelot {

/// Collects runs of cells and sets a bit in each cell once, however many runs overlap there.
class RowRuns {
 public:
  RowRuns(const Grid& grid, int bit, std::span<std::uint32_t> mask);
  /// Columns first..last of a row; what lies outside the grid is cut off.
  void add(int row, int first, int last);
  /// Marks what was collected. Must be called at the end.
  void finish();

 private:
  struct Run {
    int row;
    int first;
    int last;
  };
  const Grid& grid_;
  std::uint32_t bit_;
  std::span<std::uint32_t> mask_;
  std::vector<Run> runs_;
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
