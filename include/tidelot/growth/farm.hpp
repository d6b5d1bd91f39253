// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>

#include "tidelot/growth/model.hpp"

namespace tidelot {

/// A farm as the water that passes it sees it. Lines lie along the flow.
struct FarmShape {
  double line_m = 0.0;   ///< grown length of all lines
  double width_m = 0.0;  ///< of the gear, across the flow
  double depth_m = 0.5;  ///< of the water that passes through the canopy
  int segments = 12;     ///< along the flow, each well mixed
};

/// A season of the whole farm.
struct FarmResult {
  SeasonResult per_m;         ///< mean over the farm's line; without days; hauls of the whole farm
  double taken_up_g = 0.0;    ///< N that the crop took up, from its own exact days
  double water_lost_g = 0.0;  ///< N that the water brought less what it carried on
  double supply_g = 0.0;      ///< N that the water brought
  double lowest_share = 1.0;  ///< of the inflow's nitrogen: the least that left the farm on a day
};

/// The reference with the crop's own draw-down of nitrogen. The farm is cut into equal segments
/// along the flow; each day the water of that day passes them one after the other, each takes what
/// its crop takes up at the nitrogen it leaves behind (nitrogen_drop), and hands the rest on. All
/// segments march in step, so nothing is iterated over the season, and what the water lost is what
/// the crop took up. A tide turns: the direction changes from day to day, so both ends fare alike.
/// Equations: docs/science/depletion.md.
[[nodiscard]] FarmResult grow_farm(std::span<const DayForcing> days, const Husbandry& husbandry,
                                   const AlgaConstants& constants, const FarmShape& farm);

}  // namespace tidelot
