// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/sun.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace tidelot;

TEST_CASE("the polar night has no day and no radiation, the polar day all of it") {
  const SunDay night = sun_of_day(80.0, 355);
  CHECK(night.sunset_angle == 0.0);
  CHECK(night.day_length_h == 0.0);
  CHECK(night.extraterrestrial_mj == 0.0);
  const SunDay midsummer = sun_of_day(80.0, 172);
  CHECK(midsummer.sunset_angle == Approx(std::numbers::pi));
  CHECK(midsummer.day_length_h == Approx(24.0));
  CHECK(midsummer.extraterrestrial_mj > 40.0);
  for (int day = 1; day <= kDaysPerYear; ++day) {
    for (const double latitude : {-90.0, -66.5, 66.5, 90.0}) {
      const SunDay sun = sun_of_day(latitude, day);
      CHECK((sun.extraterrestrial_mj >= 0.0 && sun.extraterrestrial_mj < 50.0));
      CHECK((sun.day_length_h >= 0.0 && sun.day_length_h <= 24.0 + 1e-12));
    }
  }
}

TEST_CASE("at the equator every day has twelve hours") {
  CHECK(sun_of_day(0.0, 1).day_length_h == Approx(12.0));
  CHECK(sun_of_day(0.0, 200).day_length_h == Approx(12.0));
}

TEST_CASE("day lengths north and south of the equator add up to 24 hours") {
  for (int day = 1; day <= kDaysPerYear; day += 13) {
    CHECK(sun_of_day(41.0, day).day_length_h + sun_of_day(-41.0, day).day_length_h == Approx(24.0));
  }
}

TEST_CASE("clouds take up to two thirds of the clear sky's radiation") {
  CHECK(global_radiation_mj(0.0, 40.0) == Approx(10.0));
  CHECK(global_radiation_mj(1.0, 40.0) == Approx(30.0));
}

TEST_CASE("a half-sine day carries its photons") {
  // mean of the sine over the day is 2/pi, so noon x 2/pi x seconds is the day's sum
  CHECK(noon_flux(40.0, 12.0) * 2.0 / std::numbers::pi * 12.0 * 3600.0 == Approx(40.0e6));
  CHECK(noon_flux(40.0, 0.0) == 0.0);
  CHECK(noon_flux(0.0, 12.0) == 0.0);
}
