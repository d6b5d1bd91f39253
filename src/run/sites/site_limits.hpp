// SPDX-License-Identifier: Apache-2.0
// The season at each site, month by month, and what the water says of the plan's dates.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "run/area.hpp"
#include "run/cell_season.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// What a site's record and sheet tell of a season.
[[nodiscard]] SiteSeason site_season_of(const CellSeason& cell, const Plan& plan,
                                        const LimitThresholds& limits);

/// Dry weight in what a season hauls, g DW/g FW: its nitrogen per fresh weight over its nitrogen
/// per dry weight; 0 where nothing is hauled.
[[nodiscard]] double haul_dry_to_fresh(const SeasonResult& growth, const Stocked& put_out);

/// Grows the reference season in the cell at each site's centre, those listed apart too, and says
/// what is stocked on all of its lines. A site
/// whose centre is not known well enough to grow keeps none.
void add_site_seasons(SitesResult& sites, const Plan& plan, const Area& area);

/// The season that the water alone gives at a place.
struct WaterSeason {
  std::string place;  ///< "S01", "this place"
  SeasonWindow window;
};

/// One line for farm.outplant and one for farm.last_haul where the plan gives it and it lies more
/// than a week off the water's own date at any of the places.
[[nodiscard]] std::vector<std::string> date_warnings(const FarmPlan& farm,
                                                     std::span<const WaterSeason> places);

/// The ranked sites' seasons of the water, for date_warnings.
[[nodiscard]] std::vector<WaterSeason> water_seasons(std::span<const Site> sites);

}  // namespace tidelot::run
