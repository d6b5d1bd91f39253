// SPDX-License-Identifier: Apache-2.0
// Allen, Pereira, Raes & Smith 1998, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56,
// chapter 3, equations 21-35, examples 8-10 and annex table 2.6. The equations were seen in several
// transcriptions; the examples and the table's 0 and 40 degree rows are from memory and are
// reproduced by the equations; the other rows and L-06 to L-09 were computed independently.
#include <array>
#include <catch2/catch.hpp>

#include "tidelot/season/sun.hpp"

using namespace tidelot;

namespace {

constexpr double kSouth2254 = -(22.0 + 54.0 / 60.0);

struct Row {
  double latitude;
  std::array<double, kMonths> values;
};

DayOfYear fifteenth(int month) { return first_day_of_month(month) + 14; }

}  // namespace

TEST_CASE("L-01 FAO-56 example 8: 20 S on 3 September, from memory") {
  const SunDay sun = sun_of_day(-20.0, 246);
  CHECK(sun.inverse_distance == Approx(0.985).margin(0.0005));
  CHECK(sun.declination == Approx(0.120).margin(0.0005));
  CHECK(sun.sunset_angle == Approx(1.527).margin(0.0005));
  CHECK(sun.extraterrestrial_mj == Approx(32.2).margin(0.05));
  CHECK(sun.extraterrestrial_mj * 0.408 == Approx(13.1).margin(0.05));  // mm of water a day
}

TEST_CASE("L-02 FAO-56 example 9: daylight hours, from memory") {
  CHECK(sun_of_day(-20.0, 246).day_length_h == Approx(11.7).margin(0.05));
}

TEST_CASE("L-03 FAO-56 example 10: radiation from sunshine, from memory") {
  const SunDay sun = sun_of_day(kSouth2254, 135);
  CHECK(sun.extraterrestrial_mj == Approx(25.1).margin(0.05));
  CHECK(sun.day_length_h == Approx(10.9).margin(0.05));
  CHECK(global_radiation_mj(7.1 / sun.day_length_h, sun.extraterrestrial_mj) ==
        Approx(14.5).margin(0.05));
  CHECK(global_radiation_mj(1.0, sun.extraterrestrial_mj) == Approx(18.8).margin(0.05));
}

TEST_CASE("L-04 a public test suite's value, seen second-hand: 23.7951 S, day 202, to 1e-8") {
  const SunDay sun = sun_of_day(-23.7951, 202);
  CHECK(sun.inverse_distance == Approx(0.9688418122).margin(1e-8));
  CHECK(sun.declination == Approx(0.3556525356).margin(1e-8));
  CHECK(sun.sunset_angle == Approx(1.4062650742).margin(1e-8));
  CHECK(sun.day_length_h == Approx(10.7430738169).margin(1e-8));
  CHECK(sun.extraterrestrial_mj == Approx(23.6182204613).margin(1e-8));
}

TEST_CASE("L-05 FAO-56 annex table 2.6, R_a on the 15th, to 0.15 MJ m-2 d-1") {
  constexpr std::array kTable{
      Row{0, {36.2, 37.5, 37.9, 36.8, 34.8, 33.4, 33.9, 35.7, 37.2, 37.4, 36.3, 35.6}},
      Row{40, {15.0, 20.4, 27.2, 34.7, 39.7, 41.9, 40.8, 36.7, 30.0, 22.5, 16.3, 13.6}},
      Row{41, {14.4, 19.8, 26.8, 34.4, 39.6, 41.9, 40.8, 36.5, 29.5, 21.9, 15.6, 13.0}},
      Row{60, {3.3, 8.3, 16.6, 27.5, 36.7, 41.2, 39.1, 31.3, 20.5, 10.8, 4.4, 2.2}},
      Row{-20, {41.9, 40.0, 36.6, 31.3, 26.6, 24.1, 25.0, 29.0, 34.2, 38.6, 41.2, 42.1}}};
  for (const Row& row : kTable) {
    for (int month = 0; month < kMonths; ++month) {
      INFO("latitude " << row.latitude << ", month " << month + 1);
      CHECK(sun_of_day(row.latitude, fifteenth(month)).extraterrestrial_mj ==
            Approx(row.values[static_cast<std::size_t>(month)]).margin(0.15));
    }
  }
}

TEST_CASE("L-05 day length at 40 N, computed independently, to 0.05 h") {
  constexpr std::array kHours{9.5, 10.5, 11.7, 13.1, 14.2, 14.8, 14.6, 13.6, 12.2, 10.9, 9.7, 9.2};
  for (int month = 0; month < kMonths; ++month) {
    CHECK(sun_of_day(40.0, fifteenth(month)).day_length_h ==
          Approx(kHours[static_cast<std::size_t>(month)]).margin(0.0501));
  }
}

TEST_CASE("L-06 annual mean of R_a at 41 N, computed independently, to 0.005") {
  double sum = 0.0;
  for (int day = 1; day <= kDaysPerYear; ++day) {
    sum += sun_of_day(41.0, day).extraterrestrial_mj;
  }
  CHECK(sum / kDaysPerYear == Approx(27.866).margin(0.005));
}

TEST_CASE("L-07 PAR of 20 MJ (McCree 1972, Thimijan & Heins 1983, from memory), computed") {
  // 41.13 mol m-2 d-1 above the surface; 0.94 of it enters (Payne 1972, from memory)
  CHECK(par_below_surface(20.0) == Approx(0.94 * 41.13).margin(0.005));
}

TEST_CASE("L-08 noon light of a half-sine day, computed independently, to 0.1") {
  CHECK(noon_flux(40.0, 14.4) == Approx(1212.0).margin(0.1));
}

TEST_CASE("L-09 from the sun to below the surface at 41 N, day 166, computed independently") {
  const SunDay sun = sun_of_day(41.0, 166);
  const double clear = global_radiation_mj(1.0, sun.extraterrestrial_mj);
  CHECK(sun.extraterrestrial_mj == Approx(41.858).margin(0.001));
  CHECK(clear == Approx(31.394).margin(0.001));
  CHECK(par_below_surface(clear) == Approx(60.69).margin(0.005));
}
