// SPDX-License-Identifier: Apache-2.0
// What must hold for any water: nitrogen taken up is carried off, lost or still standing; weights
// are not negative; the reserve stays in its bounds; more nitrogen in the water never means less
// taken up.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

#include "support/random_seasons.hpp"

using namespace tidelot;
using namespace tidelot::random_seasons;

TEST_CASE("nitrogen balances to 1e-9 over random seasons") {
  std::mt19937 random(1);
  for (int n = 0; n < 400; ++n) {
    const Husbandry husbandry = random_husbandry(random);
    const SeasonResult season = grow_season(random_days(random), husbandry, alga());
    double gross = 0.0;
    for (const DayTrace& day : season.days) {
      gross += std::abs(day.uptake_g_per_m) + day.lost_n_g_per_m;
    }
    const double stocked = husbandry.stocking_g_per_m * alga().dry_to_fresh * alga().q_start;
    const double balance = season.uptake_g_per_m - season.lost_n_g_per_m - season.nitrogen_g_per_m;
    INFO("season " << n);
    REQUIRE(std::abs(balance) <= 1e-9 * (gross + stocked));
  }
}

TEST_CASE("nitrogen balances on every single day too") {
  std::mt19937 random(2);
  for (int n = 0; n < 100; ++n) {
    const Husbandry husbandry = random_husbandry(random);
    const SeasonResult season = grow_season(random_days(random), husbandry, alga());
    double before = husbandry.stocking_g_per_m * alga().dry_to_fresh * alga().q_start;
    for (const DayTrace& day : season.days) {
      const double standing = day.biomass_g_per_m * alga().dry_to_fresh * day.tissue_n;
      const double scale = before + standing + std::abs(day.uptake_g_per_m);
      REQUIRE(std::abs(standing - before - day.uptake_g_per_m + day.lost_n_g_per_m) <=
              1e-11 * scale);
      before = (day.biomass_g_per_m - day.harvest_g_per_m) * alga().dry_to_fresh * day.tissue_n;
    }
  }
}

namespace {

bool sound(const DayTrace& day) {
  bool all = day.biomass_g_per_m >= 0.0 && day.harvest_g_per_m >= 0.0 &&
             day.harvest_g_per_m <= day.biomass_g_per_m && day.tissue_n >= alga().q_min &&
             day.tissue_n <= alga().q_max && day.f_light >= 0.0 && day.lost_n_g_per_m >= 0.0 &&
             std::isfinite(day.uptake_g_per_m);
  for (const double factor : {day.f_temperature, day.f_salinity, day.f_nitrogen, day.f_density}) {
    all = all && factor >= 0.0 && factor <= 1.0 + 1e-12;
  }
  return all;
}

}  // namespace

TEST_CASE("weights are not negative, reserves in bounds, factors in 0..1: 10,000 random seasons") {
  std::mt19937 random(3);
  for (int n = 0; n < 10000; ++n) {
    const SeasonResult season = grow_season(random_days(random), random_husbandry(random), alga());
    INFO("season " << n);
    REQUIRE(std::all_of(season.days.begin(), season.days.end(), sound));
  }
}

TEST_CASE("no less than the stocking is lost: a net yield is at least minus what was stocked") {
  std::mt19937 random(4);
  for (int n = 0; n < 200; ++n) {
    const Husbandry husbandry = random_husbandry(random);
    const SeasonResult season = grow_season(random_days(random), husbandry, alga());
    REQUIRE(season.yield_g_per_m >= -husbandry.stocking_g_per_m);
    REQUIRE(season.harvests >= 1);
    REQUIRE(season.harvests <= static_cast<int>(season.days.size()) / husbandry.harvest_days + 1);
  }
}

TEST_CASE("more nitrogen in the water never means less taken up on the first day") {
  std::mt19937 random(5);
  for (int n = 0; n < 300; ++n) {
    // All as ammonium: nitrate is held back by ammonium, so a mixture may take up less of it.
    Husbandry husbandry = random_husbandry(random);
    husbandry.nh4_share = 1.0;
    std::vector<DayForcing> day{random_day(random)};
    const double lean = grow_season(day, husbandry, alga()).uptake_g_per_m;
    day[0].nitrogen += between(random, 0.0, 20.0);
    const double rich = grow_season(day, husbandry, alga()).uptake_g_per_m;
    REQUIRE(rich >= lean - 1e-12);
  }
}
