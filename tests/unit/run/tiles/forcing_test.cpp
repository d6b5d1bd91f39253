// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/forcing.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

constexpr std::size_t kCells = 40;

Plan plan_of(SeasonPlan::Daily daily) {
  Plan plan;
  plan.crop = built_in_crop("warm-red-alga");
  plan.season.daily = daily;
  return plan;
}

/// A year around a mean, with a spread between cells that is a function of the seed alone.
MonthlyTile year(double mean, double swing, double spread, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> shift(-spread, spread);
  MonthlyTile tile;
  for (std::size_t i = 0; i < kCells; ++i) {
    const double here = mean + shift(random);
    for (std::size_t month = 0; month < kMonths; ++month) {
      const double phase = 2.0 * 3.14159265358979 * (static_cast<double>(month) - 7.0) / 12.0;
      tile.month[month].push_back(static_cast<float>(here + swing * std::cos(phase)));
    }
  }
  return tile;
}

/// 365 noisy days.
MonthlyTile days(double mean, double swing, double noise, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> shift(-noise, noise);
  MonthlyTile tile;
  for (int day = 1; day <= kDaysPerYear; ++day) {
    const double here = mean + swing * std::cos(2.0 * 3.14159265358979 * (day - 210) / 365.0);
    std::vector<float>& cells = tile.day.emplace_back();
    for (std::size_t i = 0; i < kCells; ++i) {
      cells.push_back(static_cast<float>(here + shift(random)));
    }
  }
  return tile;
}

MonthlyTile steady(float value) {
  MonthlyTile tile;
  tile.steady = true;
  tile.month[0].assign(kCells, value);
  return tile;
}

TileLayers bay() {
  TileLayers tile;
  tile.depth_low_water.assign(kCells, 6.0F);
  tile.inside.assign(kCells, 1);
  tile.temperature = year(15.0, 9.0, 1.5, 1);
  tile.salinity = year(28.0, 1.5, 3.0, 2);
  tile.attenuation = year(0.9, -0.2, 0.3, 3);
  tile.nitrogen = year(8.0, -5.0, 2.0, 4);
  tile.current = steady(0.15F);
  return tile;
}

std::vector<std::size_t> every_other() {
  std::vector<std::size_t> cells;
  for (std::size_t i = 0; i < kCells; i += 2) {
    cells.push_back(i);
  }
  return cells;
}

}  // namespace

TEST_CASE("the tile kernel and the daily reference see the same season", "[run]") {
  for (const auto daily : {SeasonPlan::Daily::mean, SeasonPlan::Daily::linear}) {
    const run::SeasonSetup setup(plan_of(daily));
    const auto cells = every_other();
    std::vector<float> latitudes;
    for (std::size_t k = 0; k < cells.size(); ++k) {
      latitudes.push_back(41.0F + 0.01F * static_cast<float>(k % 7));
    }
    const auto forcing = run::tile_forcing(bay(), cells, latitudes, setup);
    const auto grown = grow_tile(forcing.kernel, setup.husbandry(), setup.constants());
    for (std::size_t k = 0; k < cells.size(); ++k) {
      const auto days = run::day_forcing(forcing, k, latitudes[k], setup);
      REQUIRE(static_cast<int>(days.size()) == forcing.windows[k].days());
      const auto reference = grow_season(days, setup.husbandry(), setup.constants());
      const double gross = reference.yield_g_per_m + setup.husbandry().stocking_g_per_m;
      CHECK(std::abs(grown.yield_g_per_m[k] - reference.yield_g_per_m) < 1e-4 * gross);
      CHECK(grown.harvests[k] == reference.harvests);
    }
  }
}

TEST_CASE("kernel, reference and window see water that is given day by day", "[run]") {
  const run::SeasonSetup setup(plan_of(SeasonPlan::Daily::mean));
  TileLayers tile = bay();
  tile.temperature = days(15.0, 9.0, 1.0, 5);
  tile.nitrogen = days(8.0, -4.0, 3.0, 6);
  tile.current = days(0.2, 0.0, 0.1, 7);
  tile.radiation = days(14.0, 8.0, 5.0, 8);
  const auto cells = every_other();
  const std::vector<float> latitudes(cells.size(), 41.0F);
  const auto forcing = run::tile_forcing(tile, cells, latitudes, setup);
  const auto grown = grow_tile(forcing.kernel, setup.husbandry(), setup.constants());
  for (std::size_t k = 0; k < cells.size(); ++k) {
    const auto season = run::day_forcing(forcing, k, latitudes[k], setup);
    REQUIRE(static_cast<int>(season.size()) == forcing.windows[k].days());
    REQUIRE(season.size() > 60);
    const int first = forcing.windows[k].outplant;
    double current = 0.0;
    for (std::size_t d = 0; d < season.size(); ++d) {
      const auto day = (static_cast<std::size_t>(first - 1) + d) % kDaysPerYear;
      CHECK(season[d].temperature == static_cast<double>(tile.temperature.day[day][cells[k]]));
      current += static_cast<double>(tile.current.day[day][cells[k]]);
    }
    CHECK(forcing.season_current[k] ==
          Approx(current / static_cast<double>(season.size())).epsilon(1e-5));
    const auto reference = grow_season(season, setup.husbandry(), setup.constants());
    const double gross = reference.yield_g_per_m + setup.husbandry().stocking_g_per_m;
    CHECK(std::abs(grown.yield_g_per_m[k] - reference.yield_g_per_m) < 1e-4 * gross);
    CHECK(grown.harvests[k] == reference.harvests);
  }
  tile.nitrogen.day[200][5] = std::numeric_limits<float>::quiet_NaN();
  CHECK(run::unknown_properties(tile, 8)[5] == reason::kNitrogenUnknown);
  CHECK(run::unknown_properties(tile, 8)[6] == 0);
}

TEST_CASE("ammonium given apart is what the kernel and the reference feed on", "[run]") {
  const run::SeasonSetup setup(plan_of(SeasonPlan::Daily::mean));
  const auto cells = every_other();
  const std::vector<float> latitudes(cells.size(), 41.0F);
  TileLayers apart = bay();
  apart.ammonium = year(2.0, 1.5, 0.8, 6);  // its share is another every day
  const auto forcing = run::tile_forcing(apart, cells, latitudes, setup);
  const auto grown = grow_tile(forcing.kernel, setup.husbandry(), setup.constants());
  const auto shared = run::tile_forcing(bay(), cells, latitudes, setup);
  const auto by_share = grow_tile(shared.kernel, setup.husbandry(), setup.constants());
  for (std::size_t k = 0; k < cells.size(); ++k) {
    const auto days = run::day_forcing(forcing, k, 41.0, setup);
    REQUIRE(days.front().nh4_share);
    CHECK(*days.front().nh4_share != *days.back().nh4_share);
    const auto reference = grow_season(days, setup.husbandry(), setup.constants());
    const double gross = reference.yield_g_per_m + setup.husbandry().stocking_g_per_m;
    CHECK(std::abs(grown.yield_g_per_m[k] - reference.yield_g_per_m) < 1e-4 * gross);
    CHECK(grown.yield_g_per_m[k] != by_share.yield_g_per_m[k]);
  }
}

TEST_CASE("ammonium that is the same share everywhere grows what that share grows", "[run]") {
  const run::SeasonSetup setup(plan_of(SeasonPlan::Daily::mean));
  const auto cells = every_other();
  const std::vector<float> latitudes(cells.size(), 41.0F);
  TileLayers apart = bay();
  apart.ammonium = apart.nitrogen;
  for (auto& month : apart.ammonium.month) {
    std::for_each(month.begin(), month.end(), [](float& value) { value *= 0.4F; });
  }
  const auto a = grow_tile(run::tile_forcing(apart, cells, latitudes, setup).kernel,
                           setup.husbandry(), setup.constants());
  const auto b = grow_tile(run::tile_forcing(bay(), cells, latitudes, setup).kernel,
                           setup.husbandry(), setup.constants());
  for (std::size_t k = 0; k < cells.size(); ++k) {
    CHECK(a.yield_g_per_m[k] == Approx(b.yield_g_per_m[k]).epsilon(1e-5));
  }
}

TEST_CASE("twelve equal months and a steady property grow the same", "[run]") {
  const run::SeasonSetup setup(plan_of(SeasonPlan::Daily::mean));
  TileLayers with_steady = bay();
  TileLayers with_months = bay();
  with_steady.current = steady(0.2F);
  with_months.current = year(0.2, 0.0, 0.0, 9);
  const std::vector<std::size_t> one{3};
  const std::vector<float> latitude{41.0F};
  const auto a = run::tile_forcing(with_steady, one, latitude, setup);
  const auto b = run::tile_forcing(with_months, one, latitude, setup);
  const auto grown_a = grow_tile(a.kernel, setup.husbandry(), setup.constants());
  const auto grown_b = grow_tile(b.kernel, setup.husbandry(), setup.constants());
  CHECK(grown_a.yield_g_per_m[0] == Approx(grown_b.yield_g_per_m[0]).epsilon(1e-5));
  CHECK(a.season_current[0] == Approx(0.2F));
  CHECK(b.season_current[0] == Approx(0.2F));
}

TEST_CASE("one missing month makes a property unknown", "[run]") {
  const run::SeasonSetup setup(plan_of(SeasonPlan::Daily::mean));
  TileLayers tile = bay();
  CHECK(run::unknown_properties(tile, 8)[5] == 0);
  tile.nitrogen.month[1][5] = std::numeric_limits<float>::quiet_NaN();
  CHECK(run::unknown_properties(tile, 8)[5] == reason::kNitrogenUnknown);
  CHECK(run::unknown_properties(tile, 8)[6] == 0);
  tile.temperature.month[11][5] = std::numeric_limits<float>::quiet_NaN();
  CHECK(run::unknown_properties(tile, 8)[5] == reason::kTemperatureUnknown);
  tile.current.month[0][7] = std::numeric_limits<float>::quiet_NaN();
  CHECK(run::unknown_properties(tile, 8)[7] == reason::kCurrentUnknown);
}

TEST_CASE("water that never warms has no season and no days", "[run]") {
  const run::SeasonSetup setup(plan_of(SeasonPlan::Daily::mean));
  TileLayers tile = bay();
  tile.temperature = steady(9.0F);
  const std::vector<std::size_t> one{0};
  const std::vector<float> latitude{41.0F};
  const auto forcing = run::tile_forcing(tile, one, latitude, setup);
  CHECK(forcing.windows[0].state == SeasonState::too_cold);
  CHECK(run::day_forcing(forcing, 0, 41.0, setup).empty());
  const auto grown = grow_tile(forcing.kernel, setup.husbandry(), setup.constants());
  CHECK(grown.yield_g_per_m[0] == 0.0F);
  CHECK(grown.harvests[0] == 0);
}
