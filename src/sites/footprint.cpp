// SPDX-License-Identifier: Apache-2.0
#include "sites/footprint.hpp"

#include <cmath>

#include "criteria/scanline.hpp"
#include "sites/site_box.hpp"

namespace tidelot {
namespace {

constexpr double kEdge = 1e-6;  // m

/// The x of a convex outline within low <= y <= high, with its edges taken off.
Interval inner_x(const std::array<XY, 4>& corners, double low, double high) {
  Interval x;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    add_band(low, high, corners[i], corners[(i + 1) % corners.size()], x);
  }
  return {x.low + kEdge, x.high - kEdge};
}

}  // namespace

Footprint footprint_of(const SiteSize& size, double angle_deg, double cell_m) {
  const SiteBox box({0.0, 0.0}, angle_deg, size);
  Interval y;
  for (const XY corner : box.corners()) {
    y.add(corner.y);
  }
  Footprint footprint{angle_deg, {}, {}, 0, size.length_m * size.width_m / (cell_m * cell_m)};
  const int reach = static_cast<int>(std::ceil(y.high / cell_m)) + 1;
  for (int row = -reach; row <= reach; ++row) {
    const double middle = -row * cell_m;
    const Interval band =
        inner_x(box.corners(), middle - cell_m / 2.0 + kEdge, middle + cell_m / 2.0 - kEdge);
    if (!band.empty()) {
      footprint.touched.push_back({row, static_cast<int>(std::floor(band.low / cell_m + 0.5)),
                                   static_cast<int>(std::ceil(band.high / cell_m - 0.5))});
    }
    const Interval line = inner_x(box.corners(), middle, middle);
    const int first = static_cast<int>(std::ceil(line.empty() ? 1.0 : line.low / cell_m));
    const int last = static_cast<int>(std::floor(line.empty() ? 0.0 : line.high / cell_m));
    if (first <= last && middle > y.low + kEdge && middle < y.high - kEdge) {
      footprint.covered.push_back({row, first, last});
      footprint.covered_cells += static_cast<std::size_t>(last - first + 1);
    }
  }
  return footprint;
}

}  // namespace tidelot
