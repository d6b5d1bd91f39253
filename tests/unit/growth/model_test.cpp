// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/model.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "growth/alga_day.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

AlgaConstants alga() { return alga_constants(built_in_crop("warm-red-alga")); }

constexpr DayForcing kGood{22.0, 28.0, 0.8, 5.0, 0.15, 45.0, 14.0};

SeasonResult grow(std::size_t days, const Husbandry& husbandry, DayForcing day = kGood) {
  return grow_season(std::vector<DayForcing>(days, day), husbandry, alga());
}

}  // namespace

TEST_CASE("no days, no season") {
  const SeasonResult season = grow(0, {});
  CHECK(season.yield_g_per_m == 0.0);
  CHECK(season.nitrogen_g_per_m == 0.0);
  CHECK(season.harvests == 0);
  CHECK(season.days.empty());
}

TEST_CASE("constants come from the profile by name; a profile that lacks one is a fault") {
  Crop crop = built_in_crop("warm-red-alga");
  const AlgaConstants c = alga_constants(crop);
  CHECK(c.mu_max_per_day == 0.140);
  CHECK(c.q_start == 0.025);
  CHECK(c.u0 == 0.03);
  CHECK(c.salinity(20.0) == Approx(0.7));
  crop.constants.clear();
  CHECK_THROWS_AS(alga_constants(crop), std::out_of_range);
}

TEST_CASE("harvests fall on every interval and on the last day, which takes all") {
  const SeasonResult season = grow(30, {1.0, 100.0, 14, 0.4});
  CHECK(season.harvests == 3);
  for (std::size_t i = 0; i < season.days.size(); ++i) {
    const bool due = i == 13 || i == 27 || i == 29;
    CHECK((season.days[i].harvest_g_per_m > 0.0) == due);
  }
  CHECK(season.days[13].harvest_g_per_m == Approx(season.days[13].biomass_g_per_m - 100.0));
  CHECK(season.days[29].harvest_g_per_m == season.days[29].biomass_g_per_m);
}

TEST_CASE("an interval day that is the last day is one harvest") {
  const SeasonResult season = grow(28, {1.0, 100.0, 14, 0.4});
  CHECK(season.harvests == 2);
  CHECK(season.days[27].harvest_g_per_m == season.days[27].biomass_g_per_m);
}

TEST_CASE("a crop below its stocking weight is not cut before the last day") {
  DayForcing hot = kGood;
  hot.temperature = 36.0;
  const SeasonResult season = grow(30, {1.0, 100.0, 7, 0.4}, hot);
  CHECK(season.harvests == 1);
  CHECK(season.yield_g_per_m < 0.0);
  CHECK(season.nitrogen_g_per_m < 0.0);
  CHECK(season.yield_g_per_m == Approx(season.days.back().harvest_g_per_m - 100.0));
}

TEST_CASE("yield and nitrogen are net of what was stocked") {
  const SeasonResult season = grow(30, {1.0, 100.0, 14, 0.4});
  double cut = 0.0;
  double nitrogen = 0.0;
  for (const DayTrace& day : season.days) {
    cut += day.harvest_g_per_m;
    nitrogen += day.harvest_g_per_m * alga().dry_to_fresh * day.tissue_n;
  }
  CHECK(season.yield_g_per_m == Approx(cut - 100.0));
  CHECK(season.nitrogen_g_per_m == Approx(nitrogen - 100.0 * 0.10 * 0.025));
}

TEST_CASE("growth_per_day is the logarithm of a day's change in weight") {
  const SeasonResult season = grow(1, {1.0, 100.0, 14, 0.4});
  CHECK(season.days[0].growth_per_day == Approx(std::log(season.days[0].biomass_g_per_m / 100.0)));
}

TEST_CASE("the light factor is the mean over day and canopy that it stands for") {
  // against 2000 x 200 steps; three Gauss points each way are good to 2 %
  const AlgaConstants c = alga();
  const SeasonResult season = grow(1, {1.0, 100.0, 14, 0.4});
  const double shading = 0.8 + c.shade_m2_per_g * (100.0 * 0.10 / 0.5) / 0.5;
  const double noon = std::numbers::pi / 2.0 * 45.0e6 / (3600.0 * 14.0) * std::exp(-0.8 * 0.75);
  double mean = 0.0;
  for (int t = 0; t < 2000; ++t) {
    for (int x = 0; x < 200; ++x) {
      const double light = noon * std::sin(std::numbers::pi * (t + 0.5) / 2000.0) *
                           std::exp(-shading * 0.5 * (x + 0.5) / 200.0);
      mean += std::tanh(light / c.light_ik) / (2000.0 * 200.0);
    }
  }
  CHECK(season.days[0].f_light == Approx(14.0 * mean / (16.0 * std::tanh(1.2))).epsilon(0.02));
}

TEST_CASE("a canopy that reaches the surface is lit from the surface") {
  const double at_surface = grow(1, {0.0, 100.0, 14, 0.4}).days[0].f_light;
  CHECK(grow(1, {0.25, 100.0, 14, 0.4}).days[0].f_light == at_surface);
  CHECK(grow(1, {0.5, 100.0, 14, 0.4}).days[0].f_light < at_surface);
}

TEST_CASE("a polar night has no light and is no fault") {
  DayForcing night = kGood;
  night.par_mol = 0.0;
  night.day_length_h = 0.0;
  const SeasonResult season = grow(3, {}, night);
  CHECK(season.days[0].f_light == 0.0);
  CHECK(season.days[0].growth_per_day < 0.0);
}

TEST_CASE("a crop at its greatest weight does not grow") {
  const AlgaConstants c = alga();
  const Husbandry husbandry;
  Crop1m full{c.w_max, c.q_max};
  const DayTrace day = AlgaDay(kGood, full, husbandry, c).end(kGood.nitrogen, full);
  CHECK(day.f_density == 0.0);
  const double respired = c.respiration_20 * std::pow(c.q10, (kGood.temperature - 20.0) / 10.0);
  CHECK(day.growth_per_day == Approx(-respired - c.loss_per_day));
}

TEST_CASE("in still water without nitrogen nothing is taken up") {
  CHECK(uptake_rate(5.0, 5.0, 0.0, 20.0, alga()) == 0.0);
  CHECK(uptake_rate(0.0, 0.0, 1.0, 20.0, alga()) == 0.0);
}
