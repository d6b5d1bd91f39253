// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/wind.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <vector>

using namespace tidelot;

TEST_CASE("one class of speeds is Rayleigh with that mean") {
  const std::vector<WindClass> one{{6.0, 0.2}};
  const Weibull wind = weibull_of(one);
  CHECK(wind.shape == 2.0);
  CHECK(wind.scale == Approx(6.0 * 2.0 / std::sqrt(std::numbers::pi)));
  CHECK(wind.above(0.0) == 1.0);
  CHECK(wind.above(6.0) == Approx(std::exp(-std::numbers::pi / 4.0)));
}

TEST_CASE("a fit to fine classes of a Weibull distribution finds it again") {
  const Weibull truth{7.5, 1.8};
  std::vector<WindClass> classes;
  for (double low = 0.0; low < 40.0; low += 0.25) {
    classes.push_back({low + 0.125, 0.3 * (truth.above(low) - truth.above(low + 0.25))});
  }
  const Weibull found = weibull_of(classes);
  CHECK(found.shape == Approx(1.8).epsilon(0.02));
  CHECK(found.scale == Approx(7.5).epsilon(0.01));
}

TEST_CASE("a return speed is exceeded as often as it says") {
  const Weibull wind{8.0, 2.0};
  const double share = 0.25;
  const double events = share * 365.25 * 8.0;
  for (const double years : {1.0, 50.0}) {
    CHECK(wind.above(return_speed(wind, share, years)) * events * years == Approx(1.0));
  }
  CHECK(return_speed(wind, 0.0, 1.0) == 0.0);  // one event a year: nothing is exceeded for certain
  CHECK(return_speed({}, 0.5, 50.0) == 0.0);
}

TEST_CASE("given high winds go before the fit") {
  const WindSector sector{90.0, {{5.0, 0.1}, {11.0, 0.02}}, 17.0, 26.0};
  const SectorWind given = sector_wind(sector);
  CHECK(given.high_given);
  CHECK(given.speed_1y == 17.0);
  CHECK(given.speed_50y == 26.0);
  CHECK(given.share == Approx(0.12));
  const SectorWind fitted = sector_wind({90.0, {{5.0, 0.1}, {11.0, 0.02}}, 0.0, 0.0});
  CHECK_FALSE(fitted.high_given);
  CHECK(fitted.speed_50y > fitted.speed_1y);
  CHECK(fitted.speed_1y > 11.0);
}
