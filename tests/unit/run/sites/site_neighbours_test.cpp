// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_neighbours.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/one_cell.hpp"

using namespace tidelot;
using namespace tidelot::one_cell;

namespace {

/// Sites in a row from south to north, 300 m from centre to centre, grown alone and together.
struct Row {
  Plan plan = plan_with_crop();
  std::vector<Site> sites;

  Row(std::size_t count, float current, float nitrogen) {
    const run::SeasonSetup setup(plan);
    std::vector<run::SiteWater> waters;
    for (std::size_t i = 0; i < count; ++i) {
      Site site = site_on(plan);
      site.name = "S0" + std::to_string(i + 1);
      const double y = 300.0 * static_cast<double>(i);
      site.gear.middle = {0.0, y};
      sites.push_back(site);
    }
    const run::CentreWater here{forcing(water(current, nitrogen), setup), 41.0};
    for (Site& site : sites) {
      run::add_farm(site, here, plan, setup);
      waters.push_back({&site, here});
    }
    run::add_neighbours(waters, plan, setup);
  }
};

}  // namespace

TEST_CASE("one site has no neighbours and keeps its figures", "[run]") {
  const Row row(1, 0.02F, 2.0F);
  REQUIRE(row.sites[0].with_neighbours);
  CHECK(row.sites[0].with_neighbours->sites.empty());
  CHECK(row.sites[0].with_neighbours->yield_t == row.sites[0].yield_t);
  CHECK(row.sites[0].with_neighbours->nitrogen_kg == row.sites[0].nitrogen_kg);
}

TEST_CASE("sites in a row take from each other, the middle one most, and say from whom", "[run]") {
  const Row row(3, 0.05F, 1.0F);
  std::vector<double> loss;
  for (const Site& site : row.sites) {
    REQUIRE(site.with_neighbours);
    loss.push_back(1.0 - site.with_neighbours->nitrogen_kg / site.nitrogen_kg);
    CHECK(loss.back() > 0.0);
    CHECK(loss.back() < 0.05);
  }
  CHECK(loss[1] > loss[0]);
  CHECK(loss[1] > loss[2]);
  CHECK(row.sites[1].with_neighbours->sites == std::vector<std::string>{"S01", "S03"});
}

TEST_CASE("where half a tide does not carry the water to the next site, nothing is lost", "[run]") {
  const Row row(2, 0.003F, 1.0F);  // 67 m in half a tide
  CHECK(row.sites[0].with_neighbours->nitrogen_kg == row.sites[0].nitrogen_kg);
  CHECK(row.sites[0].with_neighbours->sites.empty());
}
