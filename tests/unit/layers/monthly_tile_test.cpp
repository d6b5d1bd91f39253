// SPDX-License-Identifier: Apache-2.0
#include "layers/monthly_tile.hpp"

#include <catch2/catch.hpp>
#include <functional>

using namespace tidelot;

namespace {

MonthlyTile steady(float value) {
  MonthlyTile tile;
  tile.steady = true;
  tile.month[0] = {value};
  return tile;
}

MonthlyTile by_month() {
  MonthlyTile tile;
  for (std::size_t m = 0; m < kMonths; ++m) {
    tile.month[m] = {static_cast<float>(m)};
  }
  return tile;
}

MonthlyTile by_day() {
  MonthlyTile tile;
  for (int day = 0; day < kDaysPerYear; ++day) {
    tile.day.push_back({static_cast<float>(1000 + day)});
  }
  return tile;
}

}  // namespace

TEST_CASE("two steady tiles make a steady one, months keep their months") {
  CHECK(combined(steady(2.0F), steady(3.0F), std::plus<float>()).steady);
  const MonthlyTile both = combined(by_month(), steady(3.0F), std::plus<float>());
  CHECK_FALSE(both.steady);
  for (std::size_t m = 0; m < kMonths; ++m) {
    CHECK(both.month[m][0] == static_cast<float>(m) + 3.0F);
  }
}

TEST_CASE("with days, the other gives each day the value of its month") {
  const MonthlyTile both = combined(by_day(), by_month(), std::plus<float>());
  REQUIRE(both.day.size() == 365);
  CHECK(both.month[0].empty());
  CHECK(both.day[0][0] == 1000.0F);
  CHECK(both.day[31][0] == 1032.0F);   // 1 February
  CHECK(both.day[364][0] == 1375.0F);  // 31 December
}

TEST_CASE("the share of neighbours with data is the lesser one") {
  MonthlyTile a = by_month();
  a.share = {0.75F};
  MonthlyTile b = steady(1.0F);
  CHECK(combined(a, b, std::plus<float>()).share[0] == 0.75F);
  b.share = {0.5F};
  CHECK(combined(a, b, std::plus<float>()).share[0] == 0.5F);
}
