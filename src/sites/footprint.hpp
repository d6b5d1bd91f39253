// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <vector>

#include "tidelot/sites/layout.hpp"

namespace tidelot {

/// Columns first..last of a row, all counted from the cell under its centre.
struct RowRun {
  int row;
  int first;
  int last;
};

/// The cells of a rectangle that stands on the centre of a cell.
struct Footprint {
  double angle_deg = 0.0;
  std::vector<RowRun> touched;  ///< cells that share more than an edge with the rectangle
  std::vector<RowRun> covered;  ///< cells whose centre lies inside; their own cell always does
  std::size_t covered_cells = 0;
  double area_cells = 0.0;  ///< of the rectangle
};

/// size: in the grid's metres. Contact of 1e-6 m counts as none.
[[nodiscard]] Footprint footprint_of(const SiteSize& size, double angle_deg, double cell_m);

}  // namespace tidelot
