// SPDX-License-Identifier: Apache-2.0
// The water of one cell and a site on it, for the tests of what is grown at sites.
#pragma once

#include <array>
#include <cmath>

#include "run/tiles/forcing.hpp"
#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::one_cell {

inline MonthlyTile steady(float value) {
  MonthlyTile tile;
  tile.steady = true;
  tile.month[0].assign(1, value);
  return tile;
}

/// One cell with a warm summer; the current (m/s) and nitrogen (umol/L) are for a test to choose.
inline TileLayers water(float current, float nitrogen, double warmest = 24.0) {
  TileLayers tile;
  tile.depth_low_water.assign(1, 6.0F);
  tile.inside.assign(1, 1);
  for (std::size_t month = 0; month < kMonths; ++month) {
    const double phase = 2.0 * 3.14159265358979 * (static_cast<double>(month) - 7.0) / 12.0;
    tile.temperature.month[month].push_back(
        static_cast<float>(warmest - 9.0 + 9.0 * std::cos(phase)));
  }
  tile.salinity = steady(28.0F);
  tile.attenuation = steady(0.8F);
  tile.nitrogen = steady(nitrogen);
  tile.current = steady(current);
  return tile;
}

inline Plan plan_with_crop() {
  Plan plan;
  plan.crop = built_in_crop("warm-red-alga");
  return plan;
}

/// A site of 6 lines of 111 m in 6 m of water, with figures as a map might give them.
inline Site site_on(const Plan& plan) {
  Site site;
  site.layout = layout_of({189.74, 63.25}, 8.1, plan.farm, false);
  site.depth_min_m = 6.0;
  site.depth_max_m = 6.0;
  site.yield_kg_per_m = 1.2;
  site.nitrogen_g_per_m = 3.0;
  site.yield_without_t = site.yield_t = site.layout.line_m * 1.2 / 1000.0;
  site.nitrogen_without_kg = site.nitrogen_kg = site.layout.line_m * 3.0 / 1000.0;
  return site;
}

/// One cell's forcing at 41 N.
inline run::TileForcing forcing(const TileLayers& layers, const run::SeasonSetup& setup) {
  const std::array<std::size_t, 1> only{0};
  const std::array<float, 1> latitude{41.0F};
  return run::tile_forcing(layers, only, latitude, setup);
}

}  // namespace tidelot::one_cell
