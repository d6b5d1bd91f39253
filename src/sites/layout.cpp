// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/layout.hpp"

#include <algorithm>
#include <cmath>

namespace tidelot {
namespace {

constexpr double kSquareMetresPerHectare = 10'000.0;
constexpr double kWhole = 1e-9;  // 36 m hold six gaps of 6 m, whatever the square root rounds to

}  // namespace

SiteSize site_size(const SitesPlan& sites, const FarmPlan& farm) {
  const double area = sites.area_ha * kSquareMetresPerHectare;
  if (sites.line) {
    const double width = std::max(1.0, 2.0 * farm.margin_m);
    return {area / width, width};
  }
  const double width = std::sqrt(area / sites.length_to_width);
  return {width * sites.length_to_width, width};
}

Layout layout_of(const SiteSize& size, double depth_high_water_m, const FarmPlan& farm,
                 bool one_line) {
  Layout layout;
  layout.usable_m = size.length_m - 2.0 * farm.margin_m - 2.0 * farm.scope * depth_high_water_m;
  const double room = size.width_m - 2.0 * farm.margin_m;
  if (!(layout.usable_m > 0.0) || (!one_line && room < -kWhole)) {
    return layout;
  }
  layout.lines = one_line ? 1 : static_cast<int>(std::floor(room / farm.line_gap_m + kWhole)) + 1;
  layout.line_m = layout.lines * layout.usable_m;
  layout.bundles =
      layout.lines * static_cast<long>(std::floor(layout.usable_m / farm.bundle_m + kWhole));
  return layout;
}

}  // namespace tidelot
