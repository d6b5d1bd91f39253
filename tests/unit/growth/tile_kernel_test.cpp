// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/tile_kernel.hpp"

#include <hwy/targets.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <thread>

#include "support/random_seasons.hpp"

using namespace tidelot;
using namespace tidelot::random_seasons;

TEST_CASE("2000 random seasons agree with the double reference") {
  CHECK(worst_error(random_tile(2000, 1), Husbandry{}) < 5e-6);
}

TEST_CASE("the kernel agrees with the reference for other husbandry") {
  CHECK(worst_error(random_tile(300, 2), {0.1, 400.0, 30, 0.9}) < 5e-6);
  CHECK(worst_error(random_tile(300, 3), {3.0, 50.0, 1, 0.0}) < 5e-6);
  CHECK(worst_error(random_tile(300, 4), {1.0, 100.0, 1000, 1.0}) < 5e-6);
}

TEST_CASE("steady properties and given radiation agree with the reference") {
  std::mt19937 random(5);
  KernelForcing f = random_tile(300, 5);
  f.temperature = drawn(f.cells, 10.0, 33.0, random, true);
  f.salinity = drawn(f.cells, 12.0, 40.0, random, true);
  f.attenuation = drawn(f.cells, 0.2, 2.0, random, true);
  f.nitrogen = drawn(f.cells, 0.1, 20.0, random, true);
  f.current = drawn(f.cells, 0.0, 0.4, random, true);
  CHECK(worst_error(f, Husbandry{}) < 5e-6);
  f.radiation = drawn(f.cells, -2.0, 30.0, random);
  f.sun_radiation_mj = {};
  CHECK(worst_error(f, Husbandry{}) < 5e-6);
}

TEST_CASE("the same bytes on every processor target that fuses, and on those that do not") {
  const KernelForcing f = random_tile(1003, 6);
  CHECK(random_seasons::check_targets([&] { return grow_tile(f, Husbandry{}, alga()); }) >= 2);
}

TEST_CASE("the same bytes whichever thread and whichever neighbours a cell has") {
  const KernelForcing f = random_tile(517, 7);
  const KernelResult whole = grow_tile(f, Husbandry{}, alga());
  KernelResult other;
  std::thread([&] { other = grow_tile(f, Husbandry{}, alga()); }).join();
  CHECK(same_bytes(whole, other));
  for (const std::size_t cell : {std::size_t{0}, std::size_t{127}, std::size_t{300}, f.cells - 1}) {
    const KernelForcing alone = chosen(f, std::array{cell});
    const KernelResult one = grow_tile(alone, Husbandry{}, alga());
    CHECK(one.yield_g_per_m[0] == whole.yield_g_per_m[cell]);
    CHECK(one.nitrogen_g_per_m[0] == whole.nitrogen_g_per_m[cell]);
    CHECK(one.harvests[0] == whole.harvests[cell]);
  }
}

TEST_CASE("a cell without a season yields nothing; no cells give no results") {
  KernelForcing f = random_tile(3, 8);
  f.outplant = {1, 200, 1};
  f.last_haul = {0, 240, 0};
  f.temperature = {{22.0F, 22.0F, 22.0F}, true};
  f.salinity = {{28.0F, 28.0F, 28.0F}, true};
  f.attenuation = {{0.5F, 0.5F, 0.5F}, true};
  f.nitrogen = {{5.0F, 5.0F, 5.0F}, true};
  const KernelResult tile = grow_tile(f, Husbandry{}, alga());
  CHECK(tile.yield_g_per_m[0] == 0.0F);
  CHECK(tile.nitrogen_g_per_m[2] == 0.0F);
  CHECK(tile.harvests[0] == 0);
  CHECK(tile.mean_factor[0][0] == 0.0F);
  CHECK(tile.harvests[1] == 3);  // after 14 and 28 days, and the last haul on day 41
  CHECK(grow_tile(KernelForcing{}, Husbandry{}, alga()).yield_g_per_m.empty());
}

TEST_CASE("mean factors are means over the season's days, light capped at 1") {
  const KernelForcing f = random_tile(60, 9);
  const KernelResult tile = grow_tile(f, Husbandry{}, alga());
  for (std::size_t i = 0; i < f.cells; ++i) {
    std::array<double, kFactors> mean{};
    const SeasonResult season = grow_season(forcing_of(f, i), Husbandry{}, alga());
    for (const DayTrace& day : season.days) {
      const std::array<double, kFactors> factors{day.f_temperature, day.f_salinity,
                                                 std::min(1.0, day.f_light), day.f_nitrogen,
                                                 day.f_density};
      for (std::size_t j = 0; j < kFactors; ++j) {
        mean[j] += factors[j] / static_cast<double>(season.days.size());
      }
    }
    for (std::size_t j = 0; j < kFactors; ++j) {
      CHECK(tile.mean_factor[j][i] == Approx(mean[j]).epsilon(2e-5).margin(2e-6));
    }
  }
}

TEST_CASE("latitude weight leads from the first sun table to the second") {
  std::mt19937 random(10);
  KernelForcing f = random_tile(3, 10);
  for (NodeArray* array : {&f.temperature, &f.salinity, &f.attenuation, &f.nitrogen, &f.current}) {
    *array = NodeArray{std::vector<float>(3, array == &f.temperature ? 22.0F
                                             : array == &f.salinity  ? 28.0F
                                                                     : 0.5F),
                       true};
  }
  f.outplant.assign(3, 150);
  f.last_haul.assign(3, 250);
  for (float& radiation : f.sun_radiation_mj[1]) {
    radiation *= 0.5F;
  }
  f.latitude_weight = {0.0F, 0.5F, 1.0F};
  const KernelResult tile = grow_tile(f, Husbandry{}, alga());
  CHECK(tile.yield_g_per_m[0] > tile.yield_g_per_m[1]);
  CHECK(tile.yield_g_per_m[1] > tile.yield_g_per_m[2]);
}

TEST_CASE("a salinity curve with a step is followed on both sides of it") {
  AlgaConstants c = alga();
  c.salinity = Curve({{20.0, 0.2}, {20.0, 1.0}, {30.0, 0.5}});
  KernelForcing f = random_tile(3, 11);
  f.salinity = {{19.999F, 20.0F, 25.0F}, true};
  f.outplant.assign(3, 150);
  f.last_haul.assign(3, 160);
  const KernelResult tile = grow_tile(f, Husbandry{}, c);
  CHECK(tile.mean_factor[1][0] == Approx(0.2).epsilon(1e-6));
  CHECK(tile.mean_factor[1][1] == Approx(1.0).epsilon(1e-6));
  CHECK(tile.mean_factor[1][2] == Approx(0.75).epsilon(1e-6));
}

TEST_CASE("water given day by day grows the crop as the months that it was made of") {
  const bool fuses = (hwy::SupportedTargets() & random_seasons::kFused) != 0;
  const KernelForcing months = random_tile(300, 12);
  KernelForcing days = months;
  for (NodeArray* array :
       {&days.temperature, &days.salinity, &days.attenuation, &days.nitrogen, &days.current}) {
    NodeArray daily{{}, false, true};
    for (const DayPosition& at : day_positions()) {
      const auto month = static_cast<std::size_t>(at.month) * days.cells;
      const auto next = static_cast<std::size_t>((at.month + 1) % kMonths) * days.cells;
      for (std::size_t i = 0; i < days.cells; ++i) {
        const float node = array->values[month + i];
        const float step = array->values[next + i] - node;
        daily.values.push_back(fuses ? std::fma(at.weight, step, node) : at.weight * step + node);
      }
    }
    *array = daily;
  }
  const KernelResult a = grow_tile(months, Husbandry{}, alga());
  const KernelResult b = grow_tile(days, Husbandry{}, alga());
  CHECK(a.yield_g_per_m == b.yield_g_per_m);
  CHECK(a.nitrogen_g_per_m == b.nitrogen_g_per_m);
  CHECK(a.harvests == b.harvests);
  CHECK(a.mean_factor == b.mean_factor);
}
