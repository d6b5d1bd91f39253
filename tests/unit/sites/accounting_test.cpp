// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/accounting.hpp"

#include <catch2/catch.hpp>
#include <numeric>

using namespace tidelot;

namespace {

/// 1.2 ha, 3:1, 600 m of line; 3 t net and 0.06 t stocked, 12 kg of nitrogen net and 0.24 stocked.
Site some_site() {
  Site site;
  site.size = {189.74, 63.25};
  site.gear.box_area_ha = 0.5311355;  // 159.74 m by 33.25 m
  site.layout.line_m = 600.0;
  site.area_ha = 1.2;
  site.yield_t = 3.0;
  site.nitrogen_kg = 12.0;
  site.stocked_t = 0.06;
  site.stocked_nitrogen_kg = 0.24;
  SiteSeason season;
  season.window = {SeasonState::grows, 151, 223};
  season.harvests = {{13, 100.0}, {27, 300.0}, {72, 600.0}};
  season.dry_to_fresh = 0.1;
  site.season = season;
  return site;
}

}  // namespace

TEST_CASE("one site's account on every base, worked out by hand") {
  const Account account = account_of(some_site());
  CHECK(account.hauled_t == Approx(3.06));
  CHECK(account.season_days == 73);
  const PerBase base = per_base(account);
  CHECK(*base.kg_per_100_m == Approx(2.0));                 // 12 kg / 6 hundred metres
  CHECK(*base.kg_per_gear_ha == Approx(12.0 / 0.5311355));  // 22.593
  CHECK(*base.kg_per_lease_ha == Approx(10.0));
  // 12.24 kg of nitrogen in 306 kg of dry weight.
  CHECK(*tissue_nitrogen(account) == Approx(0.04));
}

TEST_CASE("what has no base has no figure on it") {
  Site site = some_site();
  site.layout.line_m = 0.0;
  site.area_ha = 0.0;
  site.size = {400.0, 30.0};
  site.gear.box_area_ha = 0.0;  // one line: its width is two margins
  site.season.reset();
  const Account account = account_of(site);
  const PerBase base = per_base(account);
  CHECK_FALSE(base.kg_per_100_m);
  CHECK_FALSE(base.kg_per_gear_ha);
  CHECK_FALSE(base.kg_per_lease_ha);
  CHECK_FALSE(tissue_nitrogen(account));
  CHECK(account.season_days == 0);
}

TEST_CASE("all sites are added up as they are in each other's water") {
  std::vector<Site> sites(2, some_site());
  sites[1].with_neighbours = WithNeighbours{2.5, 9.0, {"S01"}};
  sites[1].season->window.last_haul = 233;
  const Account all = account_of_all(sites);
  CHECK(all.sites == 2);
  CHECK(all.line_m == 1200.0);
  CHECK(all.hauled_t == Approx(3.06 + 2.56));
  CHECK(all.nitrogen_kg == Approx(21.0));
  CHECK(all.lease_ha == Approx(2.4));
  CHECK(all.season_days == 83);
  CHECK(all.dry_to_fresh == Approx(0.1));
  CHECK(*per_base(all).kg_per_100_m == Approx(1.75));
  sites[0].season.reset();  // of one the dry weight is not known: of both it is not
  CHECK(account_of_all(sites).dry_to_fresh == 0.0);
  CHECK(account_of_all({}).nitrogen_kg == 0.0);
}

TEST_CASE("a spread is the site's own, and of all the set's") {
  std::vector<Site> sites(2, some_site());
  CHECK_FALSE(account_of(sites[0]).nitrogen_p10_kg);
  sites[0].spread.emplace().nitrogen_kg = {8.0, 11.0, 15.0};
  CHECK(account_of(sites[0]).nitrogen_p10_kg == 8.0);
  CHECK(account_of(sites[0]).nitrogen_p90_kg == 15.0);
  CHECK_FALSE(account_of_all(sites).nitrogen_p10_kg);
  const Account all = account_of_all(sites, SetSpread{{}, {17.0, 22.0, 28.0}});
  CHECK(all.nitrogen_p10_kg == 17.0);
  const auto cost = cost_of(all, MoneyPlan{1.0, 0.0});
  REQUIRE(cost);
  CHECK(*cost->low == Approx(all.line_m / 28.0));
  CHECK(*cost->high == Approx(all.line_m / 17.0));
}

TEST_CASE("shares of the load, of the goal and of the season's own load") {
  LoadPlan load;
  load.nitrogen_kg_per_year = 1200.0;
  const LoadShares bare = shares_of(12.0, 73, load);
  CHECK(bare.of_load == Approx(0.01));
  CHECK(bare.of_season_load == Approx(0.05));  // 73 days are a fifth of the year
  CHECK_FALSE(bare.of_goal);
  CHECK_FALSE(bare.to_sea);
  load.goal_percent = 25.0;
  load.residence_months = 1.0;
  const LoadShares full = shares_of(12.0, 73, load);
  CHECK(*full.of_goal == Approx(0.04));  // of 300 kg
  CHECK(*full.to_sea == Approx(1.0 / 1.3));
  CHECK(*full.to_sea_kg == Approx(12.0 / 1.3));
  CHECK(shares_of(12.0, 0, load).of_season_load == 0.0);
}

TEST_CASE("cost of a kilogram, and its range where there is a spread") {
  Account account = account_of(some_site());
  const MoneyPlan money{9.5, 30'000.0};
  // 9.5 x 600 + 30000 = 35700; over 12 kg.
  REQUIRE(cost_of(account, money));
  CHECK(cost_of(account, money)->per_kg == Approx(2975.0));
  CHECK_FALSE(cost_of(account, money)->low);
  account.nitrogen_p10_kg = 10.0;
  account.nitrogen_p90_kg = 14.0;
  CHECK(*cost_of(account, money)->low == Approx(2550.0));
  CHECK(*cost_of(account, money)->high == Approx(3570.0));
  account.nitrogen_p10_kg = -1.0;  // the crop may be lost: the cost has no upper end
  CHECK(cost_of(account, money)->low);
  CHECK_FALSE(cost_of(account, money)->high);
  account.nitrogen_kg = 0.0;
  CHECK_FALSE(cost_of(account, money));
  account.nitrogen_kg = 12.0;
  account.sites = 3;  // each has its yearly cost
  CHECK(cost_of(account, money)->per_kg == Approx((5700.0 + 90'000.0) / 12.0));
}

TEST_CASE("the calendar adds up to what is hauled, over the new year too") {
  Site site = some_site();
  const std::vector<CalendarHaul> calendar = harvest_calendar(site);
  REQUIRE(calendar.size() == 3);
  CHECK(calendar[0].day == 164);
  CHECK(calendar[2].day == 223);
  CHECK(calendar[0].fresh_t == Approx(0.306));
  CHECK(calendar[1].fresh_t == Approx(0.918));
  CHECK(calendar[2].fresh_t == Approx(1.836));
  site.season->window = {SeasonState::grows, 340, 412};
  CHECK(harvest_calendar(site)[2].day == 47);
  site.yield_t = -0.06;  // the crop was lost
  CHECK(harvest_calendar(site).empty());
  site.season.reset();
  CHECK(harvest_calendar(site).empty());
}
