// SPDX-License-Identifier: Apache-2.0
#include "sites/measure.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/scored_bay.hpp"

using namespace tidelot;
using tidelot::test::ScoredBay;

TEST_CASE("figures of a site in even water") {
  ScoredBay bay(60, 40, 10.0);
  bay.landing.assign(bay.grid.size(), 1500.0F);
  bay.depth[bay.grid.index(30, 20)] = 5.0F;
  bay.plan.sites.count = 1;
  const SitesResult result = bay.place();
  REQUIRE(result.ranked.size() == 1);
  const Site& site = result.ranked[0];
  CHECK(site.name == "S01");
  CHECK(site.rank == 1);
  CHECK(site.suitability == Approx(0.8));
  CHECK(site.score == Approx(1.6 * 120.0).epsilon(1e-6));  // 12,000 m2 in cells of 100 m2
  // 8.1 m at high water, 1.2 ha, 3:1: the arithmetic of the layout.
  CHECK(site.layout.lines == 6);
  CHECK(site.layout.line_m == Approx(666.8).margin(0.1));
  CHECK(site.yield_t == Approx(site.layout.line_m * 2.0 / 1000.0));
  CHECK(site.nitrogen_kg == Approx(site.layout.line_m * 5.0 / 1000.0));
  CHECK(site.yield_without_t == site.yield_t);
  CHECK(site.nitrogen_without_kg == site.nitrogen_kg);
  CHECK_FALSE(site.draw_down);
  CHECK(site.depth_max_m == Approx(6.0));
  CHECK(site.area_ha == Approx(1.2).epsilon(2e-3));
  CHECK(site.outplant == 130);
  CHECK(site.last_haul == 300);
  CHECK(site.harvests == 9);
  CHECK(site.landing_km == 1.5);
  CHECK(site.limited_by == "shallower than wanted");
  CHECK(site.unknown_share == 0.0);
  CHECK(site.cautions.empty());
}

TEST_CASE("corners are printed with six decimals and the area is theirs") {
  ScoredBay bay(60, 40, 10.0);
  bay.plan.sites.count = 1;
  const Site site = bay.place().ranked.at(0);
  for (const LonLat corner : site.corners) {
    CHECK(std::abs(corner.lon * 1e6 - std::round(corner.lon * 1e6)) < 1e-6);
  }
  CHECK(site.area_ha == test::FlatGeodesy{}.area_m2(site.corners) / 1e4);
}

TEST_CASE("lengths are true metres whatever the scale of the grid") {
  ScoredBay bay(60, 40, 10.0);
  bay.plan.sites.count = 1;
  bay.scale = 1.25;
  const Site site = bay.place().ranked.at(0);
  CHECK(site.area_ha == Approx(1.2).epsilon(2e-3));
  CHECK(site.layout.line_m == Approx(666.8).margin(0.1));
  CHECK(std::hypot(site.corners_xy[0].x - site.corners_xy[2].x,
                   site.corners_xy[0].y - site.corners_xy[2].y) == Approx(200.0 * 1.25));
}

TEST_CASE("a single line is placed as one line") {
  ScoredBay bay(60, 40, 10.0);
  bay.plan.sites.line = true;
  bay.plan.sites.area_ha = 0.6;
  bay.plan.sites.count = 1;
  const Site site = bay.place().ranked.at(0);
  CHECK(site.layout.lines == 1);
  CHECK(site.size.width_m == 30.0);
  CHECK(site.layout.line_m == Approx(200.0 - 30.0 - 6.0 * 8.1));
}

TEST_CASE("unknown water inside a site is said on it and does not count") {
  ScoredBay bay(24, 10, 10.0);
  bay.plan.sites.count = 1;
  bay.set_salinity_unknown(bay.grid.index(12, 5));
  const Site site = bay.place().ranked.at(0);
  CHECK(site.unknown_share == Approx(1.0 / 120.0));
  CHECK(site.suitability == Approx(0.8));
  REQUIRE(site.cautions.size() == 1);
  CHECK(site.cautions[0].find("water not fully known over ") == 0);
  CHECK(site.score == Approx(1.6 * 119.0).epsilon(1e-6));
}

TEST_CASE("the scale of the grid is its length over the ground's") {
  const Grid grid{1000.0, 5000.0, 10.0, 60, 40, "EPSG:32626"};
  for (const double scale : {0.9996, 1.0, 1.33}) {
    twins::FunctionProjector projector = test::flat_projector(scale);
    CHECK(grid_scale(grid, projector, test::FlatGeodesy{}) == Approx(scale).epsilon(1e-9));
  }
}

TEST_CASE("a site's waves are those of its most exposed cell; without winds there are none") {
  ScoredBay bay(60, 40, 10.0);
  bay.plan.sites.count = 1;
  const Site calm = bay.place().ranked.at(0);
  CHECK_FALSE(calm.waves);
  WaveMaps waves(bay.grid.size());
  waves.height_50y_m.assign(bay.grid.size(), 0.4F);
  waves.period_50y_s.assign(bay.grid.size(), 2.0F);
  const Cell under = bay.grid.cell_of(calm.centre_xy);
  waves.height_50y_m[bay.grid.index(under.col, under.row)] = 0.9F;
  waves.height_50y_m[bay.grid.index(59, 39)] = 3.0F;  // not under the site
  bay.waves = &waves;
  const Site site = bay.place().ranked.at(0);
  REQUIRE(site.waves);
  CHECK(site.waves->height_50y_m == Approx(0.9));
  CHECK(site.waves->at_line_m_s > site.waves->at_bed_m_s);
}
