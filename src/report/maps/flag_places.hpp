// SPDX-License-Identifier: Apache-2.0
// Where the numbers of the sites stand beside them, so that none lies over another.
#pragma once

#include <span>
#include <vector>

#include "tidelot/core/geometry.hpp"

namespace tidelot::page {

inline constexpr double kFlagHeight = 22.0;  ///< px

/// A site on the map: its centre in pixels from the upper left corner, and how wide its flag is.
struct Flagged {
  XY centre;
  double width = kFlagHeight;
};

/// From each site's centre to the middle of its flag, px. In their order, each flag takes the first
/// place, on rings of growing radius, where it lies over no flag, over no site's centre, and inside
/// the map of so many pixels; where there is none within reach, up and right of the site.
[[nodiscard]] std::vector<XY> flag_places(std::span<const Flagged> sites, XY map_size);

}  // namespace tidelot::page
