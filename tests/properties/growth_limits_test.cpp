// SPDX-License-Identifier: Apache-2.0
// Growth never rises when what it depends on gets worse, whatever the rest of the water; and a crop
// without nitrogen grows on its reserve and no further.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "support/random_seasons.hpp"

using namespace tidelot;
using namespace tidelot::random_seasons;

namespace {

constexpr int kCases = 2000;

/// Growth before respiration and breakage on the first day, 1/d.
double gross_growth(const DayForcing& day, const Husbandry& husbandry, const AlgaConstants& c) {
  const double net = grow_season(std::vector{day}, husbandry, c).days[0].growth_per_day;
  const double respired = c.respiration_20 * std::pow(c.q10, (day.temperature - 20.0) / 10.0);
  return net + respired + c.loss_per_day;
}

template <class Worsen>
void never_better(unsigned seed, const Worsen& worsen) {
  std::mt19937 random(seed);
  for (int n = 0; n < kCases; ++n) {
    DayForcing day = random_day(random);
    Husbandry husbandry = random_husbandry(random);
    AlgaConstants c = alga();
    c.q_start = between(random, c.q_min, c.q_max);
    const double before = gross_growth(day, husbandry, c);
    worsen(random, day, husbandry, c);
    INFO("case " << n);
    REQUIRE(gross_growth(day, husbandry, c) <= before + 1e-12);
  }
}

}  // namespace

TEST_CASE("further from the best temperature: no more growth") {
  never_better(11, [](auto& random, DayForcing& day, Husbandry&, AlgaConstants& c) {
    const double side = day.temperature < c.t_opt ? -1.0 : 1.0;
    day.temperature += side * between(random, 0.0, 10.0);
  });
}

TEST_CASE("further from the best salinities: no more growth") {
  never_better(12, [](auto& random, DayForcing& day, Husbandry&, AlgaConstants&) {
    const double side = day.salinity < 29.0 ? -1.0 : 1.0;  // the middle of the best
    day.salinity += side * between(random, 0.0, 10.0);
    day.salinity = std::max(day.salinity, 0.0);
  });
}

TEST_CASE("less light, murkier water, a deeper line: no more growth") {
  never_better(13, [](auto& random, DayForcing& day, Husbandry&, AlgaConstants&) {
    day.par_mol *= between(random, 0.0, 1.0);
  });
  never_better(14, [](auto& random, DayForcing& day, Husbandry&, AlgaConstants&) {
    day.attenuation += between(random, 0.0, 3.0);
  });
  never_better(15, [](auto& random, DayForcing&, Husbandry& husbandry, AlgaConstants&) {
    husbandry.line_depth_m += between(random, 0.0, 3.0);
  });
}

TEST_CASE("a smaller reserve: no more growth") {
  never_better(16, [](auto& random, DayForcing&, Husbandry&, AlgaConstants& c) {
    c.q_start = between(random, c.q_min, c.q_start);
  });
}

TEST_CASE("a denser crop: no more growth") {
  never_better(17, [](auto& random, DayForcing&, Husbandry& husbandry, AlgaConstants&) {
    husbandry.stocking_g_per_m *= between(random, 1.0, 5.0);
  });
}

TEST_CASE("slower water, less ammonium: no larger reserve at the end of the day") {
  std::mt19937 random(18);
  for (int n = 0; n < kCases; ++n) {
    DayForcing day = random_day(random);
    Husbandry husbandry = random_husbandry(random);
    husbandry.nh4_share = 1.0;  // in a mixture less ammonium lets more nitrate in
    const auto reserve = [&] {
      return grow_season(std::vector{day}, husbandry, alga()).days[0].tissue_n;
    };
    const double before = reserve();
    (n % 2 == 0 ? day.current : day.nitrogen) *= between(random, 0.0, 1.0);
    REQUIRE(reserve() <= before + 1e-12);
  }
}

TEST_CASE("without nitrogen a crop grows to its reserve at most, and then no more") {
  std::mt19937 random(19);
  const AlgaConstants& c = alga();
  for (int n = 0; n < 500; ++n) {
    DayForcing day = random_day(random);
    day.nitrogen = 0.0;
    Husbandry husbandry = random_husbandry(random);
    husbandry.harvest_days = 1000;
    const SeasonResult season = grow_season(std::vector(365, day), husbandry, c);
    const double reach = husbandry.stocking_g_per_m * c.q_start / c.q_min;
    for (const DayTrace& trace : season.days) {
      REQUIRE(trace.biomass_g_per_m <= reach * (1.0 + 1e-9));
    }
    const bool warm = day.temperature > 0.0;  // in colder water even respiration takes years
    REQUIRE((!warm || season.days.back().growth_per_day <= 0.0));
  }
}
