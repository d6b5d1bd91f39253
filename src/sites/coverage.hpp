// SPDX-License-Identifier: Apache-2.0
// How much of every cell a convex shape covers.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "tidelot/core/grid.hpp"

namespace tidelot {

/// Up to twelve vertices of a convex outline; four cuts of a quadrilateral leave eight at most.
struct Outline {
  std::array<XY, 12> vertices{};
  std::size_t count = 0;
  void add(XY p) { vertices[count++] = p; }
};

/// In columns and rows of the grid: x to the east from its west edge, y to the south from its north
/// edge, a cell 1 wide.
[[nodiscard]] Outline in_cells(std::span<const XY> corners, const Grid& grid);

/// What is left on one side of a line x = limit (or y = limit): the lower or the upper side.
[[nodiscard]] Outline cut(const Outline& outline, double XY::*axis, double limit, bool upper);

/// Area of a convex outline, either direction.
[[nodiscard]] double area_of(const Outline& outline);

struct Stretch {
  double low, high;
};
[[nodiscard]] Stretch extent(const Outline& outline, double XY::*axis);

/// Columns first..last of the row that the outline's strip there covers wholly; none: first > last.
struct Columns {
  int first, last;
};
[[nodiscard]] Columns whole_columns(const Outline& strip, int row);

/// Calls visit(row, first, last, share) for every stretch of cells that the outline covers: share 1
/// for a run of whole cells, else one cell and the share of its area. Exact but for rounding.
template <typename Visit>
void for_each_covered(const Outline& outline, Visit&& visit) {
  constexpr double kNothing = 1e-12;  // of a cell
  const Stretch y = extent(outline, &XY::y);
  for (int row = static_cast<int>(std::floor(y.low)); row < y.high; ++row) {
    const Outline strip =
        cut(cut(outline, &XY::y, row, true), &XY::y, static_cast<double>(row) + 1.0, false);
    if (strip.count < 3) {
      continue;
    }
    const Stretch x = extent(strip, &XY::x);
    const Columns whole = whole_columns(strip, row);
    if (whole.first <= whole.last) {
      visit(row, whole.first, whole.last, 1.0);
    }
    for (int col = static_cast<int>(std::floor(x.low)); col < x.high; ++col) {
      if (col == whole.first && whole.first <= whole.last) {
        col = whole.last;
        continue;
      }
      const double share = area_of(
          cut(cut(strip, &XY::x, col, true), &XY::x, static_cast<double>(col) + 1.0, false));
      if (share > kNothing) {
        visit(row, col, col, share);
      }
    }
  }
}

}  // namespace tidelot
