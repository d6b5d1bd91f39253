// SPDX-License-Identifier: Apache-2.0
// The plan's own boxes: measured as they lie, and held against what a site must keep.
#pragma once

#include <array>
#include <vector>

#include "sites/measure.hpp"
#include "sites/proximity.hpp"
#include "sites/setbacks.hpp"

namespace tidelot {

/// One of the plan's own boxes on the grid.
struct OwnBox {
  int number = 0;  ///< from 1, in plan order
  SiteBox box;
  std::array<LonLat, 4> corners{};  ///< as the plan gives them, in the order of the box's
};

/// Error(plan), naming sites.own_corners, where one leaves the grid.
[[nodiscard]] std::vector<OwnBox> own_boxes(const Plan& plan, const Grid& grid,
                                            Projector& grid_to_lonlat);

/// What a box must keep besides its water.
struct Keeping {
  const Setbacks& setbacks;
  const Proximity& proximity;
  double scale = 1.0;  ///< grid length over ground length
};

/// Each box measured, with its name and what is wrong with it in plan order. A box is judged less
/// what the rounding of printed corners may shift them by, so that a site's printed corners are a
/// box that may lie there too.
[[nodiscard]] std::vector<Site> own_sites(const Survey& survey, const Keeping& keeping,
                                          std::span<const OwnBox> boxes);

}  // namespace tidelot
