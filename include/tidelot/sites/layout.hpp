// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// The rectangle of a site, m.
struct SiteSize {
  double length_m = 0.0;
  double width_m = 0.0;
};
/// From [sites] area_ha and length_to_width; shape "line": the length of one line with its margins
/// and a width of twice the margin, so that area_ha / width is its length.
[[nodiscard]] SiteSize site_size(const SitesPlan& sites, const FarmPlan& farm);

/// What a rectangle holds: usable = length - 2 margin - 2 scope depth_high_water; lines =
/// floor((width - 2 margin)/gap) + 1; bundles = lines floor(usable/bundle gap). Common practice, no
/// source. usable_m <= 0: the site is too short for its depth, no lines.
struct Layout {
  int lines = 0;
  double usable_m = 0.0;  ///< grown length of one line
  double line_m = 0.0;    ///< of all lines
  long bundles = 0;
};
[[nodiscard]] Layout layout_of(const SiteSize& size, double depth_high_water_m,
                               const FarmPlan& farm, bool one_line);

}  // namespace tidelot
