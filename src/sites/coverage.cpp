// SPDX-License-Identifier: Apache-2.0
#include "sites/coverage.hpp"

#include <limits>

namespace tidelot {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

}  // namespace

Outline in_cells(std::span<const XY> corners, const Grid& grid) {
  Outline outline;
  for (const XY p : corners) {
    outline.add({(p.x - grid.west) / grid.cell_m, (grid.north - p.y) / grid.cell_m});
  }
  return outline;
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
