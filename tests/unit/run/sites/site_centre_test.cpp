// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_centre.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidelot;

TEST_CASE("monthly means of twelve months are those months") {
  MonthlyTile tile;
  for (std::size_t month = 0; month < kMonths; ++month) {
    tile.month[month] = {static_cast<float>(month) + 0.5F};
  }
  const SiteWater::Year year = run::monthly_means(tile);
  CHECK(year[0] == 0.5);
  CHECK(year[11] == 11.5);
}

TEST_CASE("a steady property is the same in every month") {
  MonthlyTile tile;
  tile.steady = true;
  tile.month[0] = {0.25F};
  for (const double month : run::monthly_means(tile)) {
    CHECK(month == 0.25);
  }
}

TEST_CASE(
    "days are averaged over their month, and a day that is not known spoils its month alone") {
  MonthlyTile tile;
  for (int day = 1; day <= kDaysPerYear; ++day) {
    tile.day.push_back({static_cast<float>(day)});
  }
  tile.day[40] = {std::nanf("")};  // 10 February
  const SiteWater::Year year = run::monthly_means(tile);
  CHECK(year[0] == Approx(16.0));  // (1 + 31) / 2
  CHECK(std::isnan(year[1]));
  CHECK(year[2] == Approx((60.0 + 90.0) / 2));
  CHECK(year[11] == Approx((335.0 + 365.0) / 2));
}

TEST_CASE("a property that was not read is not known") {
  for (const double month : run::monthly_means(MonthlyTile{})) {
    CHECK(std::isnan(month));
  }
}
