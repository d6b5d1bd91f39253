// SPDX-License-Identifier: Apache-2.0
#include "layers/step_use.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "tidelot/core/error.hpp"
#include "tidelot/layers/cf_time.hpp"

using namespace tidelot;
using Catch::Contains;

namespace {

const StepWish kWish{"water.temperature", "t.nc", WaterPlan::Steps::automatic, 1.0};

/// `count` steps of `days` days from a date of the standard calendar on.
RasterInfo series(const CfDate& first, int count, int days) {
  RasterInfo info;
  info.bands = count;
  const std::int64_t start = cf_day_number(CfCalendar::standard, first);
  for (int i = 0; i < count; ++i) {
    const std::int64_t number = start + std::int64_t{days} * i;
    const CfDate date = cf_date_of_day(CfCalendar::standard, number);
    info.steps.push_back(
        {date.year, date.month - 1, common_day(CfCalendar::standard, date), number});
  }
  return info;
}

StepWish wish(WaterPlan::Steps steps) {
  StepWish out = kWish;
  out.steps = steps;
  return out;
}

std::string refusal(const RasterInfo& info, const StepWish& wish = kWish) {
  try {
    (void)use_of_steps(info, wish);
  } catch (const Error& e) {
    CHECK(e.fault() == Fault::input);
    return e.what();
  }
  return "no failure";
}

RasterInfo levels(std::vector<double> depths) {
  RasterInfo info;
  info.bands = static_cast<int>(depths.size());
  info.levels_m = std::move(depths);
  return info;
}

}  // namespace

TEST_CASE("steps shorter than a month of one year are used day by day, several years by month") {
  const StepUse year = use_of_steps(series({2019, 1, 1}, 365, 1), kWish);
  CHECK(year.nodes == YearNodes::days);
  CHECK(year.closed);
  CHECK(year.plain.size() == 365);  // nothing to average
  CHECK_THAT(year.said, Contains("2019: 365 steps used day by day"));
  const StepUse leap = use_of_steps(series({2020, 1, 1}, 366, 1), kWish);
  CHECK(leap.nodes == YearNodes::days);
  CHECK(leap.plain.empty());  // 28 and 29 February make one day
  const StepUse weeks = use_of_steps(series({2019, 1, 3}, 46, 8), kWish);
  CHECK(weeks.nodes == YearNodes::days);
  CHECK_THAT(weeks.said, Contains("46 steps") && Contains("straight in time"));
  const StepUse years = use_of_steps(series({1993, 1, 1}, 365 * 3, 1), kWish);
  CHECK(years.nodes == YearNodes::months);
  CHECK_THAT(years.said, Contains("1993 to 1995, 3 years: 1095 steps to twelve monthly means"));
  CHECK(use_of_steps(series({2019, 1, 1}, 365, 1), wish(WaterPlan::Steps::monthly)).nodes ==
        YearNodes::months);
  const StepUse daily =
      use_of_steps(series({1993, 1, 1}, 365 * 3, 1), wish(WaterPlan::Steps::daily));
  CHECK(daily.nodes == YearNodes::days);
  CHECK_FALSE(daily.closed);
  CHECK_THAT(daily.said, Contains("each day the mean of its years"));
}

TEST_CASE("hours of a year or of several are days or months") {
  RasterInfo hours = series({2019, 1, 1}, 365, 1);
  RasterInfo all = hours;
  all.steps.clear();
  for (const TimeStep& step : hours.steps) {
    all.steps.insert(all.steps.end(), 24, step);
  }
  all.bands = static_cast<int>(all.steps.size());
  CHECK(use_of_steps(all, kWish).nodes == YearNodes::days);
}

TEST_CASE("a month without a step is refused by its name") {
  CHECK_THAT(refusal(series({2019, 1, 1}, 300, 1)),
             Contains("t.nc") && Contains("none in Nov, Dec"));
  CHECK_THAT(refusal(series({2019, 1, 15}, 4, 91)), Contains("every month needs one"));
  RasterInfo bare;
  bare.bands = 3;
  CHECK_THAT(refusal(bare), Contains("3 bands") && Contains("no axis of time"));
}

TEST_CASE("steps too far apart to be joined by a straight line are refused day by day") {
  RasterInfo gap = series({2019, 1, 1}, 365, 1);
  gap.steps.erase(gap.steps.begin() + 1, gap.steps.begin() + 50);
  gap.bands = static_cast<int>(gap.steps.size());
  CHECK_THAT(refusal(gap), Contains("50 days apart") && Contains("steps = \"monthly\""));
  CHECK(use_of_steps(gap, wish(WaterPlan::Steps::monthly)).nodes == YearNodes::months);
}

TEST_CASE("the ragged ends of a series are left out, and it is said") {
  // 29 January 1993 to 3 January 1996: January 1993 and 1996 have three days each
  const RasterInfo info = series({1993, 1, 29}, 3 + 334 + 365 + 365 + 3, 1);
  const StepUse use = use_of_steps(info, kWish);
  CHECK(use.order.size() == info.steps.size() - 6);
  CHECK(use.order.front() == 3);
  REQUIRE(use.warnings.size() == 1);
  CHECK_THAT(use.warnings[0], Contains("6 steps at the ends"));
  CHECK_THAT(use.said, Contains("1993 to 1995, 3 years"));
}

TEST_CASE("steps need not stand in the order of time") {
  RasterInfo info = series({2019, 1, 15}, 12, 30);
  std::reverse(info.steps.begin(), info.steps.end());
  const StepUse use = use_of_steps(info, kWish);
  CHECK(use.plain == std::vector<int>{11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0});
}

TEST_CASE("levels: straight between the two around the line, never beyond the outer ones") {
  const auto at = [](std::vector<double> depths, double line) {
    StepWish w = kWish;
    w.line_depth_m = line;
    return use_of_steps(levels(std::move(depths)), w);
  };
  const StepUse between = at({0.5, 1.5, 2.5}, 1.0);
  CHECK(between.level.upper == 0);
  CHECK(between.level.lower == 1);
  CHECK(between.level.weight == Approx(0.5));
  CHECK(between.plain.empty());
  CHECK_THAT(between.said, Contains("between the levels at 0.5 and 1.5 m"));
  const StepUse turned = at({2.5, 1.5, 0.5}, 1.75);
  CHECK(turned.level.upper == 1);
  CHECK(turned.level.lower == 0);
  CHECK(turned.level.weight == Approx(0.25));
  CHECK(at({5.0, 10.0}, 1.0).plain == std::vector<int>{0});
  CHECK(at({0.0, 1.0}, 1.0).plain == std::vector<int>{1});
  const StepUse deep = at({0.0, 1.0}, 3.0);
  CHECK(deep.plain == std::vector<int>{1});
  REQUIRE(deep.warnings.size() == 1);
  CHECK_THAT(deep.warnings[0], Contains("deepest level, 1 m"));
}

TEST_CASE("steps and levels together") {
  RasterInfo info = series({2019, 1, 15}, 12, 30);
  info.bands = 24;
  info.levels_m = {0.0, 1.0};
  const StepUse use = use_of_steps(info, kWish);
  CHECK(use.nodes == YearNodes::months);
  CHECK(use.plain[3] == 7);  // the lower level of the fourth step
  info.steps_fastest = true;
  CHECK(use_of_steps(info, kWish).plain[3] == 15);
}
