// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "tidelot/core/calendar.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot {

/// Water that one rule or one limit of the gear closes.
struct LostWater {
  std::string name;
  double ha = 0.0;
  double only_ha = 0.0;  ///< that nothing else closes
};

/// A ranked site as far as bays are compared by it.
struct BaySite {
  std::string name;
  bool own = false;  ///< the plan's own box, not found by the search
  LonLat centre;
  Account account;           ///< by itself
  double yield_t = 0.0;      ///< by itself
  double together_kg = 0.0;  ///< of nitrogen, while all ranked sites are farmed at once
  double together_t = 0.0;   ///< of yield, likewise
  int lines = 0;             ///< longlines
  double suitability = 0.0;  ///< mean over the site
  DayOfYear outplant = 0, last_haul = 0;
  std::vector<LonLat> corners;  ///< rounded to 6 decimals
};

/// What a run found, as far as bays are compared by it. Kept in run.json, to the last digit.
struct Bay {
  std::string title, waterbody, crop;
  double water_ha = 0.0, open_ha = 0.0, unknown_ha = 0.0;
  std::vector<LostWater> lost;
  int draws = 0;  ///< of members; 0: the best estimate only
  std::uint64_t seed = 0;
  std::vector<BaySite> sites;  ///< ranked
  Account all;                 ///< all ranked sites farmed at once
  std::string held_back_by;    ///< without a site: what holds the water back most
  // Of the best site:
  std::optional<double> landing_km;  ///< over water
  std::optional<double>
      wave_50y_m;                   ///< significant height once in fifty years, where it is highest
  MemberFigures best_members;       ///< empty without members
  std::vector<LayerErrors> errors;  ///< likewise
  MemberFigures all_members;        ///< of all ranked sites; likewise
  std::optional<LoadPlan> load;
  std::optional<MoneyPlan> money;
};

}  // namespace tidelot
