// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/geometry.hpp"

#include <algorithm>
#include <cmath>

namespace tidelot {
namespace {

/// Does a ray from p to the east cross the ring an odd number of times?
bool odd_crossings(const Path& ring, XY p) {
  bool odd = false;
  for (std::size_t i = 1; i < ring.size(); ++i) {
    const XY a = ring[i - 1];
    const XY b = ring[i];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) * (b.x - a.x) / (b.y - a.y)) {
      odd = !odd;
    }
  }
  return odd;
}

}  // namespace

double distance_to_segment(XY p, XY a, XY b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double square = dx * dx + dy * dy;
  const double along =
      square > 0.0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - along * dx, p.y - a.y - along * dy);
}

bool contains(const Polygon& polygon, XY p) {
  bool inside = odd_crossings(polygon.outer, p);
  for (const Path& hole : polygon.holes) {
    inside = inside != odd_crossings(hole, p);
  }
  return inside;
}

}  // namespace tidelot
