// SPDX-License-Identifier: Apache-2.0
// What must hold for any water: nitrogen taken up is carried off, lost or still standing; weights
// are not negative; the reserve stays in its bounds; more nitrogen in the water never means less
// taken up.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

#include "tidelot/growth/model.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

const AlgaConstants& alga() {
  static const AlgaConstants kAlga = alga_constants(built_in_crop("warm-red-alga"));
  return kAlga;
}

double between(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

DayForcing random_day(std::mt19937& random) {
  return {between(random, -2.0, 38.0), between(random, 0.0, 45.0),
          between(random, 0.0, 5.0),   random() % 4 == 0 ? 0.0 : between(random, 0.0, 60.0),
          between(random, 0.0, 0.6),   between(random, 0.0, 65.0),
          between(random, 0.0, 24.0)};
}

std::vector<DayForcing> random_days(std::mt19937& random) {
  std::vector<DayForcing> days(1 + random() % 364);
  const bool calm = random() % 2 == 0;  // half of the seasons change slowly
  for (std::size_t i = 0; i < days.size(); ++i) {
    days[i] = calm && i % 20 != 0 ? days[i - 1] : random_day(random);
  }
  return days;
}

Husbandry random_husbandry(std::mt19937& random) {
  return {between(random, 0.0, 4.0), between(random, 1.0, 1000.0),
          static_cast<int>(1 + random() % 60), between(random, 0.0, 1.0)};
}

}  // namespace

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

TEST_CASE("weights are not negative, reserves stay in their bounds, factors between 0 and 1") {
  std::mt19937 random(3);
  for (int n = 0; n < 200; ++n) {
    const SeasonResult season = grow_season(random_days(random), random_husbandry(random), alga());
    for (const DayTrace& day : season.days) {
      REQUIRE(day.biomass_g_per_m >= 0.0);
      REQUIRE(day.harvest_g_per_m >= 0.0);
      REQUIRE(day.harvest_g_per_m <= day.biomass_g_per_m);
      REQUIRE((day.tissue_n >= alga().q_min && day.tissue_n <= alga().q_max));
      for (const double factor :
           {day.f_temperature, day.f_salinity, day.f_nitrogen, day.f_density}) {
        REQUIRE((factor >= 0.0 && factor <= 1.0 + 1e-12));
      }
      REQUIRE(day.f_light >= 0.0);
      REQUIRE(std::isfinite(day.uptake_g_per_m));
      REQUIRE(day.lost_n_g_per_m >= 0.0);
    }
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

TEST_CASE("more light and clearer water never mean less growth on the first day") {
  std::mt19937 random(6);
  for (int n = 0; n < 300; ++n) {
    const Husbandry husbandry = random_husbandry(random);
    const DayForcing day = random_day(random);
    DayForcing bright = day;
    bright.par_mol *= 1.3;
    DayForcing clear = day;
    clear.attenuation *= 0.7;
    const auto growth = [&](const DayForcing& forcing) {
      return grow_season(std::vector{forcing}, husbandry, alga()).days[0].growth_per_day;
    };
    REQUIRE(growth(bright) >= growth(day));
    REQUIRE(growth(clear) >= growth(day));
  }
}

TEST_CASE("a heavier stocking grows more slowly: the crop shades and crowds itself") {
  std::mt19937 random(7);
  for (int n = 0; n < 300; ++n) {
    Husbandry husbandry = random_husbandry(random);
    const std::vector<DayForcing> day{random_day(random)};
    const double light = grow_season(day, husbandry, alga()).days[0].growth_per_day;
    husbandry.stocking_g_per_m *= 2.0;
    REQUIRE(grow_season(day, husbandry, alga()).days[0].growth_per_day <= light);
  }
}
