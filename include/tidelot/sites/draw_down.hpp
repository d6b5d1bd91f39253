// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "tidelot/core/calendar.hpp"

namespace tidelot {

/// What the crop's own draw-down of nitrogen does to a site, from a season at its centre.
struct DrawDown {
  double lowest_share = 1.0;  ///< of the inflow's nitrogen: the least that left the farm on a day
  double supply_kg = 0.0;     ///< N that the water brought past the canopy in the season
  double taken_up_kg = 0.0;   ///< N that the crop took up out of it
};

/// A site while all the ranked ones are farmed at once, its own draw-down counted too.
struct WithNeighbours {
  double yield_t = 0.0, nitrogen_kg = 0.0;
  std::vector<std::string> sites;  ///< whose water comes to it, by name; none: it is as alone
};

/// A site's season with one thing changed, the crop's own draw-down counted.
struct Choice {
  enum class Of { line_depth, stocking, fronds, harvest_days, season } of = Of::line_depth;
  double value = 0.0;  ///< m, g/m, fronds per m or days; the season's stands in its dates
  DayOfYear outplant = 0, last_haul = 0;
  bool plan = false;  ///< what the plan does
  double yield_t = 0.0, nitrogen_kg = 0.0;
  int harvests = 0;
};

}  // namespace tidelot
