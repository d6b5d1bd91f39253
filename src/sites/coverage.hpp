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
  std::array<XY, 12> vertices;  // only `count` of them are set
  std::size_t count = 0;
  void add(XY p) { vertices[count++] = p; }
};

/// In columns and rows of the grid: x to the east from its west edge, y to the south from its north
/// edge, a cell 1 wide.
[[nodiscard]] Outline in_cells(std::span<const XY> corners, const Grid& grid);

enum class Side { lower, upper };

/// What is left on one side of a line x = limit (or y = limit). One side of Sutherland & Hodgman
/// (1974), Commun. ACM 17:32-42. Here, for it is what refining a place spends its time on.
template <double XY::*axis, Side side>
[[nodiscard]] inline Outline cut(const Outline& outline, double limit) {
  Outline left;
  for (std::size_t i = 0; i < outline.count; ++i) {
    const XY a = outline.vertices[i];
    const XY b = outline.vertices[i + 1 == outline.count ? 0 : i + 1];
    const bool a_in = side == Side::upper ? a.*axis >= limit : a.*axis <= limit;
    const bool b_in = side == Side::upper ? b.*axis >= limit : b.*axis <= limit;
    if (a_in) {
      left.add(a);
    }
    if (a_in != b_in && a.*axis != limit && b.*axis != limit) {
      const double t = (limit - a.*axis) / (b.*axis - a.*axis);
      XY p{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
      p.*axis = limit;
      left.add(p);
    }
  }
  return left;
}

/// What is left between a line and the next, 1 further on.
template <double XY::*axis>
[[nodiscard]] inline Outline strip_from(const Outline& outline, int first) {
  return cut<axis, Side::lower>(cut<axis, Side::upper>(outline, first),
                                static_cast<double>(first) + 1.0);
}

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
    const Outline strip = strip_from<&XY::y>(outline, row);
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
      const double share = area_of(strip_from<&XY::x>(strip, col));
      if (share > kNothing) {
        visit(row, col, col, share);
      }
    }
  }
}

}  // namespace tidelot
