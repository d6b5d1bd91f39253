// SPDX-License-Identifier: Apache-2.0
// What must hold for kelp in any water: nitrogen taken up is carried off, lost or still standing;
// reserves stay in their bounds, factors between 0 and 1.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

#include "tidelot/growth/kelp.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

const KelpConstants& sugar_kelp() {
  static const KelpConstants kKelp = kelp_constants(built_in_crop("sugar-kelp"));
  return kKelp;
}

double between(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

DayForcing random_day(std::mt19937& random) {
  return {between(random, -2.0, 30.0), between(random, 0.0, 45.0),
          between(random, 0.0, 5.0),   random() % 4 == 0 ? 0.0 : between(random, 0.0, 60.0),
          between(random, 0.0, 0.6),   between(random, 0.0, 65.0),
          between(random, 0.0, 24.0),  between(random, -1.0, 1.0)};
}

std::vector<DayForcing> random_days(std::mt19937& random) {
  std::vector<DayForcing> days(1 + random() % 364);
  const bool calm = random() % 2 == 0;
  for (std::size_t i = 0; i < days.size(); ++i) {
    days[i] = calm && i % 40 != 0 ? days[i - 1] : random_day(random);
  }
  return days;
}

}  // namespace

TEST_CASE("kelp: nitrogen balances to 1e-9 over random seasons") {
  std::mt19937 random(1);
  const KelpConstants& k = sugar_kelp();
  for (int n = 0; n < 300; ++n) {
    const Husbandry husbandry{between(random, 0.0, 10.0), 100.0, 14, between(random, 0.0, 1.0)};
    const SeasonResult season = grow_season(random_days(random), husbandry, k);
    double gross = k.fronds_per_m * kelp::total_nitrogen({k.start_area, k.start_n, k.start_c}, k);
    for (const DayTrace& day : season.days) {
      gross += std::abs(day.uptake_g_per_m) + day.lost_n_g_per_m;
    }
    INFO("season " << n);
    REQUIRE(std::abs(season.uptake_g_per_m - season.lost_n_g_per_m - season.nitrogen_g_per_m) <=
            1e-9 * gross);
  }
}

TEST_CASE("kelp: tissue and factors stay in their bounds, nothing is negative") {
  std::mt19937 random(2);
  const KelpConstants& k = sugar_kelp();
  // most nitrogen in a dry weight: a full reserve on next to no carbon
  const Frond richest{1.0, k.n_max, k.c_min};
  const double most = kelp::total_nitrogen(richest, k) / kelp::dry_weight(richest, k);
  for (int n = 0; n < 200; ++n) {
    const SeasonResult season = grow_season(random_days(random), {}, k);
    for (const DayTrace& day : season.days) {
      REQUIRE(day.biomass_g_per_m >= 0.0);
      REQUIRE((day.tissue_n > 0.0 && day.tissue_n <= most + 1e-12));
      REQUIRE(day.lost_n_g_per_m >= 0.0);
      REQUIRE(std::isfinite(day.growth_per_day));
      for (const double factor :
           {day.f_temperature, day.f_salinity, day.f_light, day.f_nitrogen, day.f_density}) {
        REQUIRE((factor >= 0.0 && factor <= 1.0 + 1e-12));
      }
    }
  }
}
