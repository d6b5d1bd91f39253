// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/daily.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <utility>

using namespace tidelot;

namespace {

using Months = std::array<double, kMonths>;

constexpr Months kRough{3, 9, -2, 14, 14, 30, 0, 25, 25, 1, 12, 7};

double month_mean(const Months& nodes, int month) {
  double sum = 0.0;
  const int days = kMonthDays[static_cast<std::size_t>(month)];
  for (int day = 0; day < days; ++day) {
    sum += daily_value(nodes, first_day_of_month(month) + day);
  }
  return sum / days;
}

}  // namespace

TEST_CASE("days stand between the mid-months before and after their noon") {
  const auto& positions = day_positions();
  CHECK(positions[15].month == 0);  // 16 January, noon at 15.5: the middle of January
  CHECK(positions[15].weight == 0.0F);
  CHECK(positions[0].month == 11);  // 1 January: 16 of the 31 days from mid-December
  CHECK(positions[0].weight == Approx(16.0 / 31.0));
  CHECK(positions[364].month == 11);
  CHECK(positions[364].weight == Approx(15.0 / 31.0));
  CHECK(positions[44].month == 0);  // 14 February, noon at 44.5, half a day before mid-February
  CHECK(positions[44].weight == Approx(29.0 / 29.5));
  for (const DayPosition& at : positions) {
    CHECK((at.weight >= 0.0F && at.weight < 1.0F));
  }
}

TEST_CASE("the daily series of the mean-keeping nodes has the months' means") {
  const MonthlyNodes nodes(SeasonPlan::Daily::mean);
  const Months daily = nodes(kRough);
  for (int month = 0; month < kMonths; ++month) {
    INFO(month_name(month));
    CHECK(month_mean(daily, month) ==
          Approx(kRough[static_cast<std::size_t>(month)]).epsilon(1e-13).margin(1e-13));
  }
}

TEST_CASE("linear nodes are the means, and do not keep them") {
  const MonthlyNodes nodes(SeasonPlan::Daily::linear);
  CHECK(nodes(kRough) == kRough);
  CHECK(std::abs(month_mean(kRough, 5) - 30.0) > 1.0);
}

TEST_CASE("a year alike in all months stays so") {
  Months same{};
  same.fill(21.5);
  for (const double node : MonthlyNodes(SeasonPlan::Daily::mean)(same)) {
    CHECK(node == Approx(21.5).epsilon(1e-14));
  }
}

TEST_CASE("nodes are the matrix times the means") {
  const MonthlyNodes nodes(SeasonPlan::Daily::mean);
  Months one{};
  one[3] = 1.0;
  for (std::size_t i = 0; i < kMonths; ++i) {
    CHECK(nodes(one)[i] == nodes.matrix()[i][3]);
  }
  CHECK(nodes.matrix()[3][3] > 1.0);  // a peak must overshoot to keep its mean
  CHECK(nodes.matrix()[3][4] < 0.0);
}

TEST_CASE("a day's value lies on the line between two nodes and wraps round the year") {
  CHECK(daily_value(kRough, 16) == 3.0);
  CHECK(daily_value(kRough, 1) == Approx(7.0 + 16.0 / 31.0 * (3.0 - 7.0)));
  CHECK(daily_value(kRough, 366) == daily_value(kRough, 1));
  CHECK(daily_value(kRough, 0) == daily_value(kRough, 365));
  CHECK(daily_value(kRough, -364) == daily_value(kRough, 1));
}

TEST_CASE("amounts are never below 0, and unknown stays unknown") {
  CHECK(daily_value(kRough, 74) < 0.0);
  CHECK(clamped_daily(kRough, 74) == 0.0);
  CHECK(clamped_daily(kRough, 16) == 3.0);
  Months unknown{};
  unknown.fill(std::numeric_limits<double>::quiet_NaN());
  CHECK(std::isnan(clamped_daily(unknown, 74)));
}

TEST_CASE("means over days are those of the days one by one", "[season]") {
  constexpr Months kGentle{3, 9, 2, 14, 14, 30, 1, 25, 25, 1, 12, 7};
  for (const auto& [first, last] :
       {std::pair{1, 365}, {135, 288}, {290, 520}, {7, 7}, {365, 366}}) {
    for (const Months& nodes : {kGentle, kRough}) {
      double plain = 0.0;
      double clamped = 0.0;
      for (int day = first; day <= last; ++day) {
        plain += daily_value(nodes, day) / (last - first + 1);
        clamped += clamped_daily(nodes, day) / (last - first + 1);
      }
      CHECK(daily_mean(nodes, first, last) == Approx(plain).epsilon(1e-12));
      CHECK(clamped_daily_mean(nodes, first, last) == Approx(clamped).epsilon(1e-12));
    }
  }
  CHECK(clamped_daily_mean(kRough, 60, 90) > daily_mean(kRough, 60, 90));
}
