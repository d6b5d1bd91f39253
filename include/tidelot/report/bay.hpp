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
  // Where and how its lines lie, for another crop on them:
  std::vector<XY> corners_xy;  ///< in the grid's system, before rounding
  XY centre_xy;                ///< likewise
  XY gear_middle;              ///< of the rectangle in which the lines lie, likewise
  double angle_deg = 0.0;      ///< bearing of the long side in the grid
  double usable_m = 0.0;       ///< grown length of one line
  double depth_min_m = 0.0, depth_max_m = 0.0;
};

/// What each member gives of a bay besides its crop, index = member; empty without members, and
/// where members do not differ.
struct BayMembers {
  std::vector<double> water_ha;     ///< deeper than 0 at low water
  std::vector<double> open_ha;      ///< open and scored
  std::vector<double> suitable_ha;  ///< of it, good enough for a site
  std::vector<double> alone_kg;     ///< of nitrogen: the ranked sites, each by itself, added up
  std::vector<double> landing_km;   ///< of the best site; infinite: no way over water
  std::vector<double> wave_50y_m;   ///< of the best site
};

/// What a run found, as far as bays are compared by it. Kept in run.json, to the last digit.
struct Bay {
  std::string title, waterbody, crop;
  double water_ha = 0.0, open_ha = 0.0, unknown_ha = 0.0;
  double suitable_ha = 0.0;   ///< open, known and good enough for a site
  bool water_certain = true;  ///< nothing whose error is stated moves the shore, or
  bool open_certain = true;   ///< what the gear's limits close
  BayMembers members;
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

/// What one crop gives in a year on the ranked sites, farmed at once.
struct CropYield {
  std::string crop;                       ///< name of the profile
  DayOfYear outplant = 0, last_haul = 0;  ///< at the best site; 0: no season
  std::size_t sites = 0;
  double line_m = 0.0;
  double yield_t = 0.0, nitrogen_kg = 0.0;  ///< net of what was stocked
  MemberFigures members;                    ///< empty without members
};

/// Two crops in turn on the lines of the first one's ranked sites.
struct CropsInTurn {
  std::string cannot;  ///< why they cannot follow each other; "": they can, and:
  bool cut = false;    ///< their seasons overlap at the best site
  DayOfYear first_from = 0, second_from = 0;  ///< from when the lines are each one's
  CropYield first, second;
};

}  // namespace tidelot
