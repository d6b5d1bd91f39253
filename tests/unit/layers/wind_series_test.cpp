// SPDX-License-Identifier: Apache-2.0
#include "layers/wind_series.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "tidelot/core/error.hpp"
#include "tidelot/core/wind.hpp"

using namespace tidelot;

namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

TimeSeries components(std::vector<double> u, std::vector<double> v, const std::string& unit) {
  TimeSeries series;
  for (std::size_t i = 0; i < u.size(); ++i) {
    series.times.push_back(static_cast<double>(i));
  }
  series.time_unit = "hours since 2001-01-01";
  series.variables = {{"eastward_wind", unit, std::move(u)},
                      {"northward_wind", unit, std::move(v)}};
  return series;
}

/// Daily winds of so many years from 2001: out of the east, the highest of a year 20 + its number.
WindSteps yearly(int years) {
  WindSteps steps;
  for (int year = 0; year < years; ++year) {
    for (int day = 0; day < 365; ++day) {
      steps.days.push_back(cf_date_of_day(
          CfCalendar::no_leap, cf_day_number(CfCalendar::no_leap, {2001 + year, 1, 1}) + day));
      steps.speeds.push_back(day == 100 ? 20.0 + year : 5.5);
      steps.from_deg.push_back(day % 2 == 0 ? 90.0 : 270.0);
    }
  }
  return steps;
}

}  // namespace

TEST_CASE("wind blows from where its components come", "[layers]") {
  const auto steps = wind_steps(components({-3.0, 0.0, 4.0, 0.0}, {0.0, -5.0, 0.0, 6.0}, "m s-1"),
                                10.0, "waves.winds", "w.nc");
  CHECK(steps.from_deg[0] == Approx(90.0));
  CHECK(std::abs(std::remainder(steps.from_deg[1], 360.0)) < 1e-9);
  CHECK(steps.from_deg[2] == Approx(270.0));
  CHECK(steps.from_deg[3] == Approx(180.0));
  CHECK(steps.speeds == std::vector<double>{3.0, 5.0, 4.0, 6.0});
  CHECK(steps.days[0] == CfDate{2001, 1, 1});
}

TEST_CASE("units and height are taken out, missing steps counted", "[layers]") {
  const auto steps =
      wind_steps(components({-10.0, kMissing}, {0.0, 1.0}, "knots"), 4.0, "waves.winds", "w.nc");
  REQUIRE(steps.speeds.size() == 1);
  CHECK(steps.speeds[0] == Approx(wind_at_10m(5.14444, 4.0)).epsilon(1e-5));
  CHECK(steps.missing == 1);
}

TEST_CASE("what is no wind is refused, naming the file", "[layers]") {
  TimeSeries half = components({1.0}, {1.0}, "m s-1");
  half.variables.pop_back();
  CHECK_THROWS_AS(wind_steps(half, 10.0, "waves.winds", "w.nc"), Error);
  CHECK_THROWS_AS(wind_steps(components({300.0}, {0.0}, "m s-1"), 10.0, "waves.winds", "w.nc"),
                  Error);
  CHECK_THROWS_AS(wind_steps(components({3.0}, {0.0}, "furlong"), 10.0, "waves.winds", "w.nc"),
                  Error);
  CHECK_THROWS_AS(wind_steps(components({kMissing}, {0.0}, "m s-1"), 10.0, "waves.winds", "w.nc"),
                  Error);
}

TEST_CASE("a rose holds the shares of the time by sector and class", "[layers]") {
  WindSteps steps;
  for (const auto& [speed, from] : std::vector<std::pair<double, double>>{
           {0.0, 0.0}, {2.2, 355.0}, {2.6, 5.0}, {7.0, 11.3}, {9.0, 348.0}}) {
    steps.days.push_back({2001, 1, 1});
    steps.speeds.push_back(speed);
    steps.from_deg.push_back(from);
  }
  const SeriesRose found = series_rose(steps, CfCalendar::standard);
  REQUIRE(found.rose.sectors.size() == 16);
  CHECK(found.rose.calm == Approx(0.2));
  const auto& north = found.rose.sectors[0].classes;
  REQUIRE(north.size() == 1);
  CHECK(north[0].speed == Approx(2.4));
  CHECK(north[0].share == Approx(0.4));
  CHECK(found.rose.sectors[1].classes.size() == 1);
  CHECK(found.rose.sectors[15].classes.size() == 1);
  CHECK(found.rose.sectors[0].speed_50y == 0.0);
}

TEST_CASE("from ten full years on, yearly maxima give the high winds", "[layers]") {
  const SeriesRose few = series_rose(yearly(9), CfCalendar::no_leap);
  CHECK(few.full_years == 9);
  CHECK(few.rose.sectors[4].speed_50y == 0.0);
  const SeriesRose enough = series_rose(yearly(12), CfCalendar::no_leap);
  CHECK(enough.full_years == 12);
  std::vector<double> maxima;
  for (int year = 0; year < 12; ++year) {
    maxima.push_back(20.0 + year);
  }
  CHECK(enough.rose.sectors[4].speed_50y == Approx(gumbel_return_speed(maxima, 50.0)));
  CHECK(enough.rose.sectors[4].speed_1y == Approx(gumbel_return_speed(maxima, 1.0)));
  CHECK(enough.rose.sectors[12].speed_50y == Approx(5.5));  // the same every year: no spread
  CHECK(enough.rose.sectors[0].speed_50y == 0.0);           // nothing blows from there
}

TEST_CASE("a year without a tenth of its days is not full", "[layers]") {
  WindSteps steps = yearly(11);
  steps.days.resize(steps.days.size() - 60);
  steps.speeds.resize(steps.days.size());
  steps.from_deg.resize(steps.days.size());
  CHECK(series_rose(steps, CfCalendar::no_leap).full_years == 10);
}
