// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <limits>

#include "tidelot/core/geometry.hpp"

namespace tidelot {

/// A stretch of a horizontal line; empty until something is added.
struct Interval {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
  void add(double x) {
    low = std::min(low, x);
    high = std::max(high, x);
  }
  [[nodiscard]] bool empty() const { return low > high; }
};

/// Where the line through a and b, which is not horizontal, crosses the height y.
[[nodiscard]] inline double x_at(double y, XY a, XY b) {
  return a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y);
}

/// Adds where a segment crosses the height y; nothing for a horizontal one.
inline void add_crossing(double y, XY a, XY b, Interval& x) {
  if (a.y != b.y && y >= std::min(a.y, b.y) && y <= std::max(a.y, b.y)) {
    x.add(x_at(y, a, b));
  }
}

/// Adds the x that a segment spends in low <= y <= high.
inline void add_band(double low, double high, XY a, XY b, Interval& x) {
  for (const XY end : {a, b}) {
    if (end.y >= low && end.y <= high) {
      x.add(end.x);
    }
  }
  add_crossing(low, a, b, x);
  add_crossing(high, a, b, x);
}

/// Calls visit(a, b) for every segment of a ring or a line; a lone vertex is a segment of no
/// length.
template <typename Visit>
void for_each_edge(const Path& path, Visit&& visit) {
  if (path.size() == 1) {
    visit(path[0], path[0]);
  }
  for (std::size_t i = 1; i < path.size(); ++i) {
    visit(path[i - 1], path[i]);
  }
}

/// The same for every ring, line and point of a shape.
template <typename Visit>
void for_each_edge(const Shape& shape, Visit&& visit) {
  for (const Polygon& polygon : shape.polygons) {
    for_each_edge(polygon.outer, visit);
    for (const Path& hole : polygon.holes) {
      for_each_edge(hole, visit);
    }
  }
  for (const Path& line : shape.lines) {
    for_each_edge(line, visit);
  }
  for (const XY point : shape.points) {
    visit(point, point);
  }
}

}  // namespace tidelot
