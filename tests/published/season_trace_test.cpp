// SPDX-License-Identifier: Apache-2.0
// The season of the warm-temperate red alga, day by day and in total, against values computed
// independently (another program, double precision, from the equations of docs/science/growth.md).
// Tolerance: 1e-6 relative, or half of the last digit printed where that is coarser.
#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "tidelot/growth/model.hpp"
#include "tidelot/growth/tile_kernel.hpp"
#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/season/sun.hpp"

using namespace tidelot;

namespace {

constexpr double kLatitude = 41.0;
constexpr int kFirst = 152;
constexpr int kDays = 140;

struct Water {
  double temperature, salinity, nh4, no3, kd, current;
};
constexpr Water kWater{22, 28, 2, 3, 0.8, 0.15};

const AlgaConstants& alga() {
  static const AlgaConstants kAlga = alga_constants(built_in_crop("warm-red-alga"));
  return kAlga;
}

Husbandry husbandry(const Water& water) {
  return {1.0, 100.0, 14, water.nh4 / (water.nh4 + water.no3)};
}

SeasonResult reference(const Water& water) {
  std::vector<DayForcing> days;
  for (int day = kFirst; day < kFirst + kDays; ++day) {
    const SunDay sun = sun_of_day(kLatitude, day);
    const double radiation = global_radiation_mj(0.5, sun.extraterrestrial_mj);
    days.push_back({water.temperature, water.salinity, water.kd, water.nh4 + water.no3,
                    water.current, par_below_surface(radiation), sun.day_length_h});
  }
  return grow_season(days, husbandry(water), alga());
}

NodeArray steady(double value) { return {{static_cast<float>(value)}, true}; }

KernelResult kernel(const Water& water) {
  KernelForcing forcing;
  forcing.cells = 1;
  forcing.temperature = steady(water.temperature);
  forcing.salinity = steady(water.salinity);
  forcing.attenuation = steady(water.kd);
  forcing.nitrogen = steady(water.nh4 + water.no3);
  forcing.current = steady(water.current);
  forcing.outplant = {kFirst};
  forcing.last_haul = {kFirst + kDays - 1};
  forcing.latitude_weight = {0.0F};
  for (int day = 1; day <= kDaysPerYear; ++day) {
    const SunDay sun = sun_of_day(kLatitude, day);
    for (std::size_t i = 0; i < 2; ++i) {
      forcing.sun_radiation_mj[i].push_back(
          static_cast<float>(global_radiation_mj(0.5, sun.extraterrestrial_mj)));
      forcing.sun_day_length_h[i].push_back(static_cast<float>(sun.day_length_h));
    }
  }
  return grow_tile(forcing, husbandry(water), alga());
}

/// 1e-6 relative, or half a unit of the last printed decimal.
Approx printed(double value, int decimals) {
  return Approx(value).epsilon(1e-6).margin(0.5 * std::pow(10.0, -decimals) * (1.0 + 1e-9));
}

struct Row {
  std::size_t day;
  double weight, reserve, temperature, light, nitrogen, density, cut;
};
constexpr std::array kRows{
    Row{1, 108.676901, 0.025520, 0.922812, 1.007851, 0.827027, 0.975000, 0},
    Row{2, 118.198164, 0.025914, 0.922812, 1.007877, 0.834962, 0.972831, 0},
    Row{7, 180.372724, 0.026900, 0.922812, 1.004635, 0.852866, 0.958553, 0},
    Row{14, 320.658513, 0.027529, 0.922812, 0.987226, 0.861628, 0.925997, 220.658513},
    Row{15, 109.322666, 0.027376, 0.922812, 1.020595, 0.862784, 0.975000, 0},
    Row{28, 328.128808, 0.027574, 0.922812, 0.985671, 0.862246, 0.924252, 228.128808},
    Row{70, 304.907883, 0.028243, 0.922812, 0.914067, 0.870461, 0.929191, 204.907883},
    Row{140, 223.678789, 0.031148, 0.922812, 0.675786, 0.902868, 0.946960, 223.678789}};

struct Total {
  const char* change;
  Water water;
  double yield, nitrogen;
};
constexpr std::array kTotals{Total{"none", kWater, 1880.680, 5.4375},
                             Total{"T 12", {12, 28, 2, 3, 0.8, 0.15}, 45.238, 0.3638},
                             Total{"T 33", {33, 28, 2, 3, 0.8, 0.15}, -67.128, -0.1021},
                             Total{"S 18", {22, 18, 2, 3, 0.8, 0.15}, 684.236, 2.4463},
                             Total{"Kd 3", {22, 28, 2, 3, 3.0, 0.15}, 267.201, 1.1730},
                             Total{"N 0.1", {22, 28, 0.1, 0.1, 0.8, 0.15}, 615.363, 0.7068},
                             Total{"U 0.01", {22, 28, 2, 3, 0.8, 0.01}, 1151.231, 2.0234},
                             Total{"rich", {25, 28, 15, 20, 0.8, 0.3}, 2224.586, 7.0608}};

}  // namespace

TEST_CASE("season trace, computed independently: every row") {
  const SeasonResult season = reference(kWater);
  REQUIRE(season.days.size() == kDays);
  for (const Row& row : kRows) {
    INFO("day " << row.day);
    const DayTrace& day = season.days[row.day - 1];
    CHECK(day.biomass_g_per_m == printed(row.weight, 6));
    CHECK(day.tissue_n == printed(row.reserve, 6));
    CHECK(day.f_temperature == printed(row.temperature, 6));
    CHECK(day.f_light == printed(row.light, 6));
    CHECK(day.f_nitrogen == printed(row.nitrogen, 6));
    CHECK(day.f_density == printed(row.density, 6));
    CHECK(day.harvest_g_per_m == printed(row.cut, 6));
  }
}

TEST_CASE("season trace, computed independently: uptake and loss of the season") {
  const SeasonResult season = reference(kWater);
  CHECK(season.uptake_g_per_m == printed(6.0317, 4));
  CHECK(season.lost_n_g_per_m == printed(0.5941, 4));
  CHECK(season.harvests == 10);
}

TEST_CASE("season totals, computed independently: one change at a time") {
  for (const Total& total : kTotals) {
    INFO(total.change);
    const SeasonResult season = reference(total.water);
    CHECK(season.yield_g_per_m == printed(total.yield, 3));
    CHECK(season.nitrogen_g_per_m == printed(total.nitrogen, 4));
  }
}

TEST_CASE("season totals, computed independently: the float kernel within 1e-3") {
  for (const Total& total : kTotals) {
    INFO(total.change);
    const KernelResult tile = kernel(total.water);
    CHECK(tile.yield_g_per_m[0] == Approx(total.yield).epsilon(1e-3));
    CHECK(tile.nitrogen_g_per_m[0] == Approx(total.nitrogen).epsilon(1e-3));
  }
}
