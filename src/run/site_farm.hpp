// SPDX-License-Identifier: Apache-2.0
// A site's season with the crop's own draw-down of nitrogen, and with one thing changed at a time.
#pragma once

#include <atomic>

#include "run/area.hpp"
#include "run/forcing.hpp"
#include "tidelot/growth/farm.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// A site as the water sees it. The current's axis is not known: it is taken to run along the long
/// side, in which the lines lie. Width: from the first line to the last and one canopy's width;
/// depth: of the canopy, 0.5 m at least.
[[nodiscard]] FarmShape farm_shape(const Layout& layout, const FarmPlan& farm,
                                   const AlgaConstants& constants);

/// The water at a site's centre.
struct CentreWater {
  TileForcing forcing;  ///< of one cell
  double latitude_deg = 0.0;
};

/// Adds draw-down and choices to one site, from the season at its centre. The site's means stay
/// those of the maps: gross yield and nitrogen (stocking put back) change by the centre's ratio.
void add_farm(Site& site, const CentreWater& water, const Plan& plan, const SeasonSetup& setup,
              const AlgaConstants& constants);

/// The same for all sites, those listed apart too; where it cannot be done the site says why.
void add_farms(SitesResult& sites, const Plan& plan, const Area& area, int threads,
               const std::atomic<int>* stop_signal);

}  // namespace tidelot::run
