// SPDX-License-Identifier: Apache-2.0
// A site's season with the crop's own draw-down of nitrogen, and with one thing changed at a time.
#pragma once

#include <atomic>

#include "run/area.hpp"
#include "run/tiles/forcing.hpp"
#include "tidelot/growth/farm.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// A site as the water sees it. The current runs along the long side, in which the lines lie: where
/// its axis is not known that is an assumption. Width: from the first line to the last and one
/// canopy's width; depth: of the canopy, 0.5 m at least.
[[nodiscard]] FarmShape farm_shape(const Layout& layout, const FarmPlan& farm,
                                   const CropModel& model);

/// The water at a site's centre.
struct CentreWater {
  TileForcing forcing;  ///< of one cell
  double latitude_deg = 0.0;
};

/// The days of a season in it.
[[nodiscard]] std::vector<DayForcing> days_in(const CentreWater& water, const SeasonWindow& window,
                                              const SeasonSetup& setup);

/// A season's harvest per metre, gross: what was stocked not taken off.
struct Grown {
  const SeasonResult& season;
  Stocked stocked;
  [[nodiscard]] double fresh_g() const { return season.yield_g_per_m + stocked.fresh_g_per_m; }
  [[nodiscard]] double nitrogen_g() const {
    return season.nitrogen_g_per_m + stocked.nitrogen_g_per_m;
  }
};

/// Means over a site's cells, net, per metre of line.
struct PerMetre {
  double yield_kg = 0.0;
  double nitrogen_g = 0.0;
};

[[nodiscard]] PerMetre per_metre(const Site& site);

/// A whole site's figures, net of the stocking.
struct SiteFigures {
  double yield_t = 0.0;
  double nitrogen_kg = 0.0;
};
/// The maps' mean over the site's cells, changed as the centre changes from one line alone, kept as
/// planned, to `here`.
[[nodiscard]] SiteFigures site_figures(PerMetre mean, double line_m, const Grown& alone,
                                       const Grown& here);

/// Adds draw-down and choices to one site, from the season at its centre. The site's means stay
/// those of the maps: gross yield and nitrogen (stocking put back) change by the centre's ratio.
void add_farm(Site& site, const CentreWater& water, const Plan& plan, const SeasonSetup& setup);

/// The same for all sites, those listed apart too; where it cannot be done the site says why.
void add_farms(SitesResult& sites, const Plan& plan, const Area& area, int threads,
               const std::atomic<int>* stop_signal);

}  // namespace tidelot::run
