// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/window.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "tidelot/season/daily.hpp"

using namespace tidelot;

namespace {

using Nodes = std::array<float, kMonths>;

constexpr Nodes kNorthern{3, 2, 4, 8, 13, 18, 22, 23, 20, 15, 10, 6};
constexpr Nodes kSouthern{22, 23, 20, 15, 10, 6, 3, 2, 4, 8, 13, 18};

Nodes steady(float temperature) {
  Nodes nodes{};
  nodes.fill(temperature);
  return nodes;
}

/// The trailing ten-day mean, added up day by day.
double ten_day_mean(const Nodes& nodes, int day) {
  std::array<double, kMonths> wide{};
  std::copy(nodes.begin(), nodes.end(), wide.begin());
  double sum = 0.0;
  for (int back = 0; back < 10; ++back) {
    sum += daily_value(wide, day - back);
  }
  return sum / 10.0;
}

/// The window by looking at every day.
SeasonWindow plain_window(const Nodes& nodes, const WindowRules& rules) {
  int peak = 1;
  for (int day = 2; day <= kDaysPerYear; ++day) {
    peak = ten_day_mean(nodes, day) > ten_day_mean(nodes, peak) ? day : peak;
  }
  if (ten_day_mean(nodes, peak) < rules.outplant_temperature) {
    return {SeasonState::too_cold, 0, 0};
  }
  int outplant = peak;
  while (outplant > peak - 364 && ten_day_mean(nodes, outplant - 1) >= rules.outplant_temperature) {
    --outplant;
  }
  int last = peak;
  while (last < outplant + 364 && ten_day_mean(nodes, last + 1) >= rules.last_haul_temperature) {
    ++last;
  }
  const int shift = outplant < 1 ? kDaysPerYear : 0;
  return {SeasonState::grows, outplant + shift, last + shift};
}

WindowRules gear(int in, int out) {
  WindowRules rules;
  rules.gear_in = in;
  rules.gear_out = out;
  return rules;
}

void check_window(const SeasonWindow& window, int outplant, int last_haul) {
  CHECK(window.state == SeasonState::grows);
  CHECK(window.outplant == outplant);
  CHECK(window.last_haul == last_haul);
}

}  // namespace

TEST_CASE("the season begins and ends where the trailing ten-day mean says") {
  const SeasonWindow window = season_window(kNorthern, {});
  REQUIRE(window.state == SeasonState::grows);
  CHECK(ten_day_mean(kNorthern, window.outplant) >= 15.0);
  CHECK(ten_day_mean(kNorthern, window.outplant - 1) < 15.0);
  CHECK(ten_day_mean(kNorthern, window.last_haul) >= 13.0);
  CHECK(ten_day_mean(kNorthern, window.last_haul + 1) < 13.0);
  CHECK(window.days() == window.last_haul - window.outplant + 1);
}

TEST_CASE("windows of random waters are those found by looking at every day") {
  std::mt19937 random(1);
  std::uniform_real_distribution<float> middle(8.0F, 20.0F);
  std::uniform_real_distribution<float> swing(-9.0F, 9.0F);
  std::uniform_real_distribution<float> noise(-4.0F, 4.0F);
  int seasons = 0;
  for (int n = 0; n < 3000; ++n) {
    Nodes nodes{};
    const float centre = middle(random);
    const float height = swing(random);
    const float rough = n % 3 == 0 ? 1.0F : (n % 3 == 1 ? 0.1F : 0.0F);
    for (std::size_t month = 0; month < kMonths; ++month) {
      nodes[month] =
          centre + height * std::cos(0.5236F * static_cast<float>(month)) + rough * noise(random);
    }
    WindowRules rules;
    rules.last_haul_temperature = n % 7 == 0 ? 16.0 : 13.0;
    const SeasonWindow expected = plain_window(nodes, rules);
    const SeasonWindow found = water_window(nodes, rules);
    INFO("case " << n);
    REQUIRE(found.state == expected.state);
    const bool whole_year = expected.days() == kDaysPerYear;
    if (expected.state == SeasonState::grows && !whole_year) {
      ++seasons;
      REQUIRE(found.outplant == expected.outplant);
      REQUIRE(found.last_haul == expected.last_haul);
    }
  }
  CHECK(seasons > 1000);
}

TEST_CASE("a southern season crosses the new year") {
  const SeasonWindow window = season_window(kSouthern, {});
  REQUIRE(window.state == SeasonState::grows);
  CHECK(window.outplant > 300);
  CHECK(window.last_haul > kDaysPerYear);
  CHECK(month_of(window.last_haul) == 4);
  check_window(season_window(kSouthern, gear(320, 60)), std::max(320, window.outplant), 60 + 365);
}

TEST_CASE("water that never reaches the outplant temperature is too cold") {
  CHECK(season_window(steady(14.9F), {}).state == SeasonState::too_cold);
  CHECK(season_window(steady(14.9F), {}).days() == 0);
  CHECK(season_window(steady(15.0F), {}).state == SeasonState::grows);
  CHECK(season_window(steady(std::numeric_limits<float>::quiet_NaN()), {}).state ==
        SeasonState::too_cold);
}

TEST_CASE("water that is at the crop's limit all season is too hot") {
  CHECK(season_window(steady(34.1F), {}).state == SeasonState::too_hot);
  CHECK(season_window(steady(34.0F), {}).state == SeasonState::grows);
  Nodes one_mild_month = steady(35.0F);
  one_mild_month[1] = 30.0F;
  CHECK(season_window(one_mild_month, {}).state == SeasonState::grows);
}

TEST_CASE("water warm throughout gives the year from gear_in or 1 January on") {
  check_window(season_window(steady(22.0F), {}), 1, 365);
  check_window(season_window(steady(22.0F), gear(121, 319)), 121, 319);
  WindowRules rules;
  rules.gear_in = 121;
  check_window(season_window(steady(22.0F), rules), 121, 121 + 364);
  rules = {};
  rules.gear_out = 319;
  check_window(season_window(steady(22.0F), rules), 1, 319);
  rules = {};
  rules.outplant = 200;
  check_window(season_window(steady(22.0F), rules), 200, 365);
}

TEST_CASE("never below the last-haul temperature: the season runs until the next outplant") {
  const Nodes mild{14, 14, 14, 14, 16, 18, 20, 20, 18, 16, 14, 14};
  const SeasonWindow window = season_window(mild, {});
  CHECK(window.days() == kDaysPerYear);
  CHECK(ten_day_mean(mild, window.outplant - 1) < 15.0);
}

TEST_CASE("gear dates clip the season") {
  const SeasonWindow water = water_window(kNorthern, {});
  check_window(season_window(kNorthern, gear(1, 365)), water.outplant, water.last_haul);
  check_window(season_window(kNorthern, gear(182, 212)), 182, 212);
  check_window(season_window(kNorthern, gear(182, 365)), 182, water.last_haul);
  CHECK(season_window(kNorthern, gear(335, 60)).state == SeasonState::outside_gear);
  CHECK(season_window(kNorthern, gear(335, 60)).days() == 0);
  // gear may be out in midsummer: the longer of the two pieces
  check_window(season_window(kNorthern, gear(235, 160)), 235, water.last_haul);
  // water_window knows nothing of them
  check_window(water_window(kNorthern, gear(182, 212)), water.outplant, water.last_haul);
  WindowRules only_out;
  only_out.gear_out = 250;
  check_window(season_window(kNorthern, only_out), water.outplant, 250);
  only_out.gear_out = 20;
  check_window(season_window(kNorthern, only_out), water.outplant, water.last_haul);
}

TEST_CASE("given dates are used as they are, whatever the water, and clipped") {
  WindowRules rules;
  rules.outplant = 60;
  rules.last_haul = 340;
  check_window(season_window(kNorthern, rules), 60, 340);
  check_window(season_window(steady(2.0F), rules), 60, 340);
  check_window(season_window(steady(40.0F), rules), 60, 340);
  rules.gear_in = 121;
  rules.gear_out = 319;
  check_window(season_window(kNorthern, rules), 121, 319);
  rules = {};
  rules.outplant = 300;
  rules.last_haul = 60;
  check_window(season_window(kNorthern, rules), 300, 60 + 365);
  rules.last_haul = 300;
  check_window(season_window(kNorthern, rules), 300, 300);
}

TEST_CASE("where one date is given the other is found") {
  const SeasonWindow water = water_window(kNorthern, {});
  WindowRules rules;
  rules.outplant = 200;
  check_window(season_window(kNorthern, rules), 200, water.last_haul);
  rules = {};
  rules.last_haul = 200;
  check_window(season_window(kNorthern, rules), water.outplant, 200);
  CHECK(season_window(steady(2.0F), rules).state == SeasonState::too_cold);
}

TEST_CASE("window rules come from the crop and the plan") {
  Plan plan;
  for (const auto& [name, value] : {std::pair{"outplant_temperature", 16.0},
                                    {"last_haul_temperature", 12.0},
                                    {"t_min", 8.0},
                                    {"t_opt", 25.0},
                                    {"t_max", 33.0}}) {
    plan.crop.constants.push_back({name, value, value, value, "degC", "test"});
  }
  plan.farm.outplant = 100;
  plan.season.gear_out = 300;
  const WindowRules rules = window_rules(plan);
  CHECK(rules.outplant_temperature == 16.0);
  CHECK(rules.last_haul_temperature == 12.0);
  CHECK(rules.t_max == 33.0);
  CHECK(rules.outplant == 100);
  CHECK_FALSE(rules.last_haul);
  CHECK_FALSE(rules.gear_in);
  CHECK(rules.gear_out == 300);
}

TEST_CASE("window rules say cold for a cold crop") {
  Plan plan;
  plan.crop.season_rule = SeasonRule::cold;
  plan.crop.temperature = Curve({{0.0, 0.2}, {10.0, 1.0}, {19.0, 0.0}});
  for (const char* name : {"outplant_temperature", "last_haul_temperature"}) {
    plan.crop.constants.push_back({name, 14.0, 14.0, 14.0, "degC", "test"});
  }
  CHECK(window_rules(plan).rule == SeasonRule::cold);
  CHECK(window_rules(plan).t_max == 19.0);
}

namespace {

/// A kelp's rules: out at or below 15, in before 14 is passed.
WindowRules cold_rules() {
  WindowRules rules;
  rules.outplant_temperature = 15.0;
  rules.last_haul_temperature = 14.0;
  rules.t_max = 19.0;
  rules.rule = SeasonRule::cold;
  return rules;
}

void check_cold_season(const Nodes& nodes, const SeasonWindow& window) {
  REQUIRE(window.state == SeasonState::grows);
  CHECK(ten_day_mean(nodes, window.outplant) <= 15.0);
  CHECK(ten_day_mean(nodes, window.outplant - 1) > 15.0);
  CHECK(ten_day_mean(nodes, window.last_haul) <= 14.0);
  CHECK(ten_day_mean(nodes, window.last_haul + 1) > 14.0);
}

}  // namespace

TEST_CASE("a cold season goes from autumn over the new year to spring") {
  const SeasonWindow window = season_window(kNorthern, cold_rules());
  check_cold_season(kNorthern, window);
  CHECK(month_of(window.outplant) == 9);
  CHECK(window.last_haul > kDaysPerYear);
  CHECK(month_of(window.last_haul) == 4);
}

TEST_CASE("a southern cold season lies within the year") {
  const SeasonWindow window = season_window(kSouthern, cold_rules());
  check_cold_season(kSouthern, window);
  CHECK(month_of(window.outplant) == 3);
  CHECK(month_of(window.last_haul) == 10);
  CHECK(window.last_haul <= kDaysPerYear);
}

TEST_CASE("a warm spell in autumn does not begin a cold season before it: it stays cold") {
  const Nodes spell{3, 2, 4, 8, 13, 18, 22, 14, 22, 14, 10, 6};
  const SeasonWindow window = season_window(spell, cold_rules());
  check_cold_season(spell, window);
  CHECK(month_of(window.outplant) >= 9);
}

TEST_CASE("water that never cools has no cold season: too warm") {
  CHECK(season_window(steady(15.1F), cold_rules()).state == SeasonState::too_hot);
  CHECK(season_window(steady(15.1F), cold_rules()).days() == 0);
  WindowRules late = cold_rules();  // an outplant temperature at which nothing grows
  late.outplant_temperature = late.last_haul_temperature = 21.0;
  CHECK(season_window(steady(20.0F), late).state == SeasonState::too_hot);
}

TEST_CASE("water that never warms gives a cold crop the year from gear_in or 1 January on") {
  check_window(season_window(steady(4.0F), cold_rules()), 1, 365);
  WindowRules rules = cold_rules();
  rules.gear_in = 288;
  rules.gear_out = 166;
  check_window(season_window(steady(4.0F), rules), 288, 166 + 365);
}

TEST_CASE("gear dates over the new year clip a cold season at both ends") {
  const SeasonWindow water = water_window(kNorthern, cold_rules());
  WindowRules rules = cold_rules();
  rules.gear_in = 305;
  rules.gear_out = 120;
  check_window(season_window(kNorthern, rules), 305, 120 + 365);
  rules.gear_in = 244;
  rules.gear_out = 181;
  check_window(season_window(kNorthern, rules), water.outplant, water.last_haul);
  rules.gear_in = 152;
  rules.gear_out = 243;
  CHECK(season_window(kNorthern, rules).state == SeasonState::outside_gear);
}

TEST_CASE("days give the window that their trailing ten-day mean gives") {
  const WindowRules rules;
  std::array<float, kDaysPerYear> days{};
  for (int day = 1; day <= kDaysPerYear; ++day) {
    days[static_cast<std::size_t>(day - 1)] = day >= 120 && day <= 290 ? 20.0F : 5.0F;
  }
  // the mean of 7 warm days and 3 cold ones is 15.5, of 6 and 4 is 14; 13 is the last haul's
  const SeasonWindow warm = season_window(days, rules);
  CHECK(warm.outplant == 126);
  CHECK(warm.last_haul == 294);
  WindowRules cold = rules;
  cold.rule = SeasonRule::cold;
  cold.outplant_temperature = 8.0;
  cold.last_haul_temperature = 8.0;
  const SeasonWindow winter = season_window(days, cold);
  CHECK(winter.outplant == 298);  // two warm days and eight cold: 8
  CHECK(winter.last_haul == kDaysPerYear + 121);
  days.fill(3.0F);
  CHECK(season_window(days, rules).state == SeasonState::too_cold);
}

TEST_CASE("the days of twelve nodes give the nodes' own window") {
  const WindowRules rules;
  for (const float warmth : {0.0F, 2.0F, 4.0F, 9.0F}) {
    Nodes nodes{};
    for (std::size_t month = 0; month < kMonths; ++month) {
      nodes[month] = 12.0F + warmth - 9.0F * std::cos(static_cast<float>(month) * 0.5236F);
    }
    std::array<double, kMonths> wide{};
    std::copy(nodes.begin(), nodes.end(), wide.begin());
    std::array<float, kDaysPerYear> days{};
    for (int day = 1; day <= kDaysPerYear; ++day) {
      days[static_cast<std::size_t>(day - 1)] = static_cast<float>(daily_value(wide, day));
    }
    const SeasonWindow by_month = season_window(nodes, rules);
    const SeasonWindow by_day = season_window(days, rules);
    CHECK(by_day.state == by_month.state);
    CHECK(by_day.outplant == by_month.outplant);
    CHECK(by_day.last_haul == by_month.last_haul);
  }
}
