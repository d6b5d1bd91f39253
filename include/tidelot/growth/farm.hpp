// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "tidelot/growth/crop_model.hpp"

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
                                   const CropModel& model, const FarmShape& farm);

/// One of several farms in one bay. Days are counted alike in all of them.
struct FarmOfBay {
  std::vector<DayForcing> days;  ///< outplant to last haul
  int first_day = 1;
  FarmShape shape;
};

/// Water that passed one farm comes to another, `to`, further along the axis (on days on which the
/// tide runs forward) or further back (on the others).
struct WaterPath {
  std::size_t from = 0, to = 0;
  double share = 0.0;       ///< of the drop behind `from` that is left, mixed, at `to`
  double distance_m = 0.0;  ///< from the one's end to the other's
};

/// Farms of one crop that share their water. They stand in the order of the axis along which the
/// tide runs; on each day they are grown in the order in which the water passes them, so nothing is
/// iterated. What comes to a farm is its own water less the drops behind those before it, each
/// mixed (share) and present for the part of the tide in which it has come so far: 1 - distance
/// over the way of half a tide at the current of `from` (kHalfTide_s), 0 where it does not come so
/// far.
[[nodiscard]] std::vector<FarmResult> grow_farms(std::span<const FarmOfBay> farms,
                                                 std::span<const WaterPath> paths,
                                                 const Husbandry& husbandry,
                                                 const CropModel& model);

/// Half of the principal lunar tide's 12.4206 hours, s.
inline constexpr double kHalfTide_s = 22357.0;

}  // namespace tidelot
