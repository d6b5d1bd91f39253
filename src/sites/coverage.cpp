// SPDX-License-Identifier: Apache-2.0
#include "sites/coverage.hpp"

#include <limits>

namespace tidelot {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

XY where_cut(XY a, XY b, double XY::*axis, double limit) {
  const double t = (limit - a.*axis) / (b.*axis - a.*axis);
  XY p{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
  p.*axis = limit;
  return p;
}

}  // namespace

Outline in_cells(std::span<const XY> corners, const Grid& grid) {
  Outline outline;
  for (const XY p : corners) {
    outline.add({(p.x - grid.west) / grid.cell_m, (grid.north - p.y) / grid.cell_m});
  }
  return outline;
}

// One side of Sutherland & Hodgman (1974), Commun. ACM 17:32-42.
Outline cut(const Outline& outline, double XY::*axis, double limit, bool upper) {
  Outline left;
  for (std::size_t i = 0; i < outline.count; ++i) {
    const XY a = outline.vertices[i];
    const XY b = outline.vertices[i + 1 == outline.count ? 0 : i + 1];
    const bool a_in = upper ? a.*axis >= limit : a.*axis <= limit;
    const bool b_in = upper ? b.*axis >= limit : b.*axis <= limit;
    if (a_in) {
      left.add(a);
    }
    if (a_in != b_in && a.*axis != limit && b.*axis != limit) {
      left.add(where_cut(a, b, axis, limit));
    }
  }
  return left;
}

double area_of(const Outline& outline) {
  if (outline.count < 3) {
    return 0.0;
  }
  const XY o = outline.vertices[0];
  double twice = 0.0;
  for (std::size_t i = 2; i < outline.count; ++i) {
    const XY a = outline.vertices[i - 1];
    const XY b = outline.vertices[i];
    twice += (a.x - o.x) * (b.y - o.y) - (b.x - o.x) * (a.y - o.y);
  }
  return std::abs(twice) / 2.0;
}

Stretch extent(const Outline& outline, double XY::*axis) {
  Stretch stretch{kInfinity, -kInfinity};
  for (std::size_t i = 0; i < outline.count; ++i) {
    stretch.low = std::min(stretch.low, outline.vertices[i].*axis);
    stretch.high = std::max(stretch.high, outline.vertices[i].*axis);
  }
  return stretch;
}

/// A column is covered wholly where the outline holds it along both the row's edges.
Columns whole_columns(const Outline& strip, int row) {
  Stretch north{kInfinity, -kInfinity};
  Stretch south = north;
  const auto widen = [](Stretch& stretch, double x) {
    stretch.low = std::min(stretch.low, x);
    stretch.high = std::max(stretch.high, x);
  };
  for (std::size_t i = 0; i < strip.count; ++i) {
    const XY p = strip.vertices[i];
    if (p.y == row) {
      widen(north, p.x);
    } else if (p.y == row + 1) {
      widen(south, p.x);
    }
  }
  const double low = std::max(north.low, south.low);
  const double high = std::min(north.high, south.high);
  if (!(high - low >= 1.0)) {
    return {0, -1};
  }
  return {static_cast<int>(std::ceil(low)), static_cast<int>(std::floor(high)) - 1};
}

}  // namespace tidelot
