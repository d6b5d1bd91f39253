// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/wave_climate.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

using namespace tidelot;

namespace {

constexpr float kNan = std::numeric_limits<float>::quiet_NaN();

WaveDirection direction(const SectorWind& wind, double limit_m) {
  return {wind, WaveForm::young_verhagen, limit_m,
          std::make_shared<const SeaTable>(limit_winds(WaveForm::young_verhagen, limit_m))};
}

SectorWind wind_from(double from_deg, double share, double speed_1y, double speed_50y) {
  return {from_deg, share, {7.0, 2.0}, speed_1y, speed_50y, true};
}

}  // namespace

TEST_CASE("the table is within 0.2 % of the form, by both forms and many winds") {
  std::mt19937_64 random(3);
  const auto uniform = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11U) * 0x1p-53;
  };
  for (const WaveForm form : {WaveForm::young_verhagen, WaveForm::shore_protection}) {
    for (const double wind : {3.0, 12.0, 28.0, 45.0}) {
      const SeaTable table([&](double f, double d) { return sea_of(form, wind, f, d); });
      for (int i = 0; i < 3000; ++i) {
        const double fetch = std::exp(uniform(std::log(5.0), std::log(9e5)));
        const double depth = std::exp(uniform(std::log(0.12), std::log(250.0)));
        CAPTURE(wind, fetch, depth);
        const SeaState exact = sea_of(form, wind, fetch, depth);
        REQUIRE(table(fetch, depth).height_m == Approx(exact.height_m).epsilon(2e-3));
        REQUIRE(table(fetch, depth).period_s == Approx(exact.period_s).epsilon(2e-3));
      }
    }
  }
}

TEST_CASE("the wind for a height raises that height") {
  for (const WaveForm form : {WaveForm::young_verhagen, WaveForm::shore_protection}) {
    const double wind = wind_for_height(form, 0.5, 4000.0, 6.0);
    CHECK(sea_of(form, wind, 4000.0, 6.0).height_m == Approx(0.5));
    CHECK(std::isinf(wind_for_height(form, 5.0, 100.0, 6.0)));
  }
}

TEST_CASE("the worst direction gives the height, and shares of time add up over directions") {
  WaveMaps maps(3);
  const std::vector<float> deep{20.0F, 20.0F, 20.0F};
  const std::vector<float> north{8000.0F, 500.0F, 0.0F};
  const std::vector<float> south{500.0F, 8000.0F, 0.0F};
  const WaveDirection from_north = direction(wind_from(0.0, 0.2, 15.0, 25.0), 0.5);
  const WaveDirection from_south = direction(wind_from(180.0, 0.1, 12.0, 20.0), 0.5);
  from_north.add_to(maps, 0, 3, north, deep, deep);
  from_south.add_to(maps, 0, 3, south, deep, deep);
  CHECK(maps.height_50y_m[0] == Approx(young_verhagen(25.0, 8000.0, 20.0).height_m).epsilon(2e-3));
  CHECK(maps.period_50y_s[0] == Approx(young_verhagen(25.0, 8000.0, 20.0).period_s).epsilon(2e-3));
  CHECK(maps.height_50y_m[1] == Approx(young_verhagen(20.0, 8000.0, 20.0).height_m).epsilon(2e-3));
  CHECK(maps.height_1y_m[0] == Approx(young_verhagen(15.0, 8000.0, 20.0).height_m).epsilon(2e-3));
  const Weibull wind{7.0, 2.0};
  const auto above = [&](double fetch) {
    return wind.above(wind_for_height(WaveForm::young_verhagen, 0.5, fetch, 20.0));
  };
  CHECK(maps.share_above[0] == Approx(0.2 * above(8000.0) + 0.1 * above(500.0)).epsilon(0.02));
  CHECK(maps.share_above[1] == Approx(0.2 * above(500.0) + 0.1 * above(8000.0)).epsilon(0.02));
  CHECK(std::isnan(maps.height_50y_m[2]));
}

TEST_CASE("the depth limits the height, and unknown depth is taken as deep") {
  WaveMaps maps(2);
  const std::vector<float> fetch{20000.0F, 20000.0F};
  const std::vector<float> mean{10.0F, kNan};
  const std::vector<float> here{1.5F, kNan};
  direction(wind_from(0.0, 0.2, 15.0, 30.0), 1.0).add_to(maps, 0, 2, fetch, mean, here);
  CHECK(maps.height_50y_m[0] == Approx(0.9F));
  CHECK(maps.share_above[0] == 0.0F);  // no sea of 1 m stands in 1.5 m
  CHECK(maps.height_50y_m[1] ==
        Approx(young_verhagen(30.0, 20000.0, 300.0).height_m).epsilon(2e-3));
  CHECK(maps.share_above[1] > 0.0F);
}

TEST_CASE("a rose of eight sectors becomes sixteen directions with half the time each") {
  WindRose rose;
  for (int i = 0; i < 8; ++i) {
    rose.sectors.push_back({45.0 * i, {{6.0, 0.1}}, 0.0, 0.0});
  }
  const auto directions = directions_of(rose, 16);
  REQUIRE(directions.size() == 16);
  CHECK(directions[0].from_deg == Approx(-11.25));
  CHECK(directions[1].from_deg == Approx(11.25));
  CHECK(directions[15].from_deg == Approx(326.25));
  CHECK(directions[3].share == Approx(0.05));
  CHECK(directions_of(rose, 8).size() == 8);
  CHECK(directions_of(rose, 8)[2].from_deg == 90.0);
}

TEST_CASE("a place's waves are its cell's, and the water moves as linear theory has it") {
  WaveMaps maps(2);
  maps.height_50y_m = {0.0F, 0.8F};
  maps.period_50y_s = {0.0F, 3.0F};
  maps.height_1y_m = {0.0F, 0.5F};
  maps.share_above = {0.0F, 0.02F};
  Plan plan;
  plan.depth.tidal_range_m = 1.5;
  plan.farm.line_depth_m = 1.0;
  const PlaceWaves floating = place_waves(maps, 1, 6.5, plan);
  CHECK(floating.height_50y_m == Approx(0.8));
  CHECK(floating.share_above == Approx(0.02));
  const SeaState sea{static_cast<double>(0.8F), 3.0};
  CHECK(floating.at_line_m_s == Approx(orbital_speed(sea, 8.0, 1.0)));
  CHECK(floating.at_bed_m_s == Approx(orbital_speed(sea, 8.0, 8.0)));
  plan.farm.fixed_line = true;  // a line at 1 m below low water hangs 2.5 m deep at high water
  CHECK(place_waves(maps, 1, 6.5, plan).at_line_m_s == Approx(orbital_speed(sea, 8.0, 2.5)));
  CHECK(place_waves(maps, 1, 0.2, plan).at_line_m_s ==
        Approx(orbital_speed(sea, 1.7, 1.7)));  // never below the bed
}
