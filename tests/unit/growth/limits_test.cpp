// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/limits.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

constexpr LimitThresholds kCrop{8.0, 25.0, 34.0, 10.0, 45.0, 29.0};

/// A day at its best, growing 5 % a day.
DayTrace best_day(double temperature = 25.0, double salinity = 29.0) {
  DayTrace day{};
  day.forcing = {temperature, salinity, 0.8, 5.0, 0.15, 43.2, 12.0};
  day.f_temperature = day.f_salinity = day.f_light = day.f_nitrogen = day.f_density = 1.0;
  day.growth_per_day = 0.05;
  return day;
}

DayTrace cold_or_warm(double temperature, double factor) {
  DayTrace day = best_day(temperature);
  day.f_temperature = factor;
  return day;
}

Limit limit_of_days(const std::vector<DayTrace>& days) {
  return season_months(days, 1, {}, kCrop).at(0).limit;
}

}  // namespace

TEST_CASE("no days have no months, no limits and nothing beyond tolerance") {
  CHECK(season_months({}, 100, {}, kCrop).empty());
  CHECK(limits_by_month({}).empty());
  CHECK(days_beyond({}, kCrop).total() == 0);
  CHECK(days_text({}) == "none");
}

TEST_CASE("a season is cut at the ends of its months, over the new year too") {
  const std::vector<DayTrace> days(40, best_day());
  const auto months = season_months(days, 355, {}, kCrop);  // 21 December
  REQUIRE(months.size() == 2);
  CHECK(months[0].month == 11);
  CHECK(months[0].days == 11);
  CHECK(months[0].first == 355);
  CHECK(months[1].month == 0);
  CHECK(months[1].days == 29);
  CHECK(months[1].first == 366);
}

TEST_CASE("a whole year from the middle of a month has that month at both ends") {
  const std::vector<DayTrace> days(365, best_day());
  const auto months = season_months(days, 15, {}, kCrop);
  REQUIRE(months.size() == 13);
  CHECK(months.front().days + months.back().days == 31);
}

TEST_CASE("the lowest mean factor limits; the first of equals; nothing from 0.95 on") {
  DayTrace day = best_day();
  CHECK(limit_of_days({day}) == Limit::nothing);
  day.f_density = 0.95;
  CHECK(limit_of_days({day}) == Limit::nothing);
  day.f_density = 0.94;
  CHECK(limit_of_days({day}) == Limit::crowding);
  day.f_nitrogen = 0.94;
  CHECK(limit_of_days({day}) == Limit::nitrogen);
  day.f_light = 0.5;
  CHECK(limit_of_days({day}) == Limit::light);
}

TEST_CASE("light beyond that of the culture makes up for no dark day") {
  DayTrace dark = best_day();
  dark.f_light = 0.8;
  DayTrace bright = best_day();
  bright.f_light = 1.3;
  CHECK(limit_of_days({dark, bright}) == Limit::light);
}

TEST_CASE("temperature and salinity take the side whose days cost more") {
  CHECK(limit_of_days({cold_or_warm(15.0, 0.4)}) == Limit::cold);
  CHECK(limit_of_days({cold_or_warm(31.0, 0.4)}) == Limit::warm);
  // two mild days against one that is far too warm
  CHECK(limit_of_days({cold_or_warm(22.0, 0.9), cold_or_warm(22.0, 0.9),
                       cold_or_warm(33.5, 0.1)}) == Limit::warm);
  DayTrace fresh = best_day(25.0, 15.0);
  fresh.f_salinity = 0.35;
  CHECK(limit_of_days({fresh}) == Limit::fresh);
  DayTrace salty = best_day(25.0, 40.0);
  salty.f_salinity = 0.4;
  CHECK(limit_of_days({salty}) == Limit::salty);
}

TEST_CASE("days beyond tolerance are counted at the threshold itself") {
  const std::vector<DayTrace> days{best_day(8.0),        best_day(8.01),       best_day(34.0),
                                   best_day(25.0, 10.0), best_day(25.0, 45.0), best_day(36.0, 5.0)};
  const ToleranceDays beyond = days_beyond(days, kCrop);
  CHECK(beyond.too_cold == 1);
  CHECK(beyond.too_warm == 2);
  CHECK(beyond.too_fresh == 2);
  CHECK(beyond.too_salty == 1);
  CHECK(days_text(beyond) == "1 too cold, 2 too warm, 2 too fresh, 1 too salty");
}

TEST_CASE("thresholds come from the profile: bounds of temperature, ends of the salinity curve") {
  Crop crop = built_in_crop("warm-red-alga");
  const LimitThresholds found = limit_thresholds(crop);
  CHECK(found.t_opt == crop.at("t_opt"));
  CHECK(found.salinity_min == 10.0);
  CHECK(found.salinity_max == 45.0);
  CHECK(found.salinity_best == 29.0);
  crop.salinity = Curve({{0.0, 0.2}, {30.0, 1.0}});
  CHECK(limit_thresholds(crop).salinity_min == -std::numeric_limits<double>::infinity());
  CHECK(limit_thresholds(crop).salinity_max == std::numeric_limits<double>::infinity());
  crop.salinity = Curve({{0.0, 0.0}, {5.0, 0.0}, {30.0, 1.0}});
  CHECK(limit_thresholds(crop).salinity_min == 5.0);
}

TEST_CASE("light at the line is the daytime mean, lost with depth; none in polar night") {
  DayForcing day = best_day().forcing;  // 43.2 mol over 12 h = 1000 umol m-2 s-1
  CHECK(light_at_line(day, {0.0}) == Approx(1000.0));
  CHECK(light_at_line(day, {1.0}) == Approx(1000.0 * std::exp(-0.8)));
  day.day_length_h = 0.0;
  day.par_mol = 0.0;
  CHECK(light_at_line(day, {1.0}) == 0.0);
}

TEST_CASE("means are over the days of the month") {
  DayTrace second = best_day(15.0, 21.0);
  second.f_temperature = 0.5;
  second.growth_per_day = -0.01;
  const auto month = season_months(std::vector{best_day(), second}, 152, {0.0}, kCrop).at(0);
  CHECK(month.temperature == Approx(20.0));
  CHECK(month.salinity == Approx(25.0));
  CHECK(month.nitrogen == Approx(5.0));
  CHECK(month.light_at_line == Approx(1000.0));
  CHECK(month.growth_per_day == Approx(0.02));
  CHECK(month.mean_factor[0] == Approx(0.75));
  CHECK(limits_by_month(std::vector{month}) == "Jun cold");
}
