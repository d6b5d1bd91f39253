// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <set>

#include "report/compare/compare_words.hpp"
#include "support/compared_bays.hpp"

using namespace tidelot;

namespace {

Measured value(const Bay& bay, std::string_view key) {
  for (const CompareMeasure& measure : compare_measures()) {
    if (measure.key == key) {
      return measure.of(bay);
    }
  }
  FAIL("no such measure");
  return {};
}

}  // namespace

TEST_CASE("every measure has a name of its own and words", "[report]") {
  std::set<std::string_view> keys, titles;
  for (const CompareMeasure& measure : compare_measures()) {
    CHECK(keys.insert(measure.key).second);
    CHECK(titles.insert(page::measure_title(measure.key)).second);
    CHECK_FALSE(page::measure_words(measure.key, 1.0).metric.empty());
  }
}

TEST_CASE("per line and area are the whole over its base, members alike", "[report]") {
  const Bay bay = compared_bays::bay("A", {4, 6, 8});
  CHECK(value(bay, kOrderMeasure).best == 6.0);
  const Measured per_100_m = value(bay, "nitrogen_kg_per_100_m");
  CHECK(*per_100_m.best == Approx(1.0));
  CHECK(per_100_m.members ==
        std::vector<double>{4 * (100.0 / 600), 6 * (100.0 / 600), 8 * (100.0 / 600)});
  CHECK(*value(bay, "nitrogen_kg_per_ha_site").best == Approx(5.0));
  CHECK(*value(bay, "nitrogen_kg_per_ha_gear_box").best == Approx(12.0));
  CHECK(*value(bay, "yield_kg_per_100_m").best == Approx(250.0));
  CHECK(*value(bay, "open_share").best == 0.25);
}

TEST_CASE("shares of the load and the cost go by the accounting", "[report]") {
  Bay bay = compared_bays::bay("A", {4, 6, 8});
  CHECK_FALSE(value(bay, "share_of_load").best.has_value());
  CHECK_FALSE(value(bay, "cost_per_kg").best.has_value());
  bay.load = LoadPlan{};
  bay.load->nitrogen_kg_per_year = 600.0;
  bay.load->goal_percent = 10.0;
  bay.load->residence_months = 1.0;
  bay.money = MoneyPlan{1.0, 600.0};
  CHECK(*value(bay, "share_of_load").best == Approx(0.01));
  CHECK(*value(bay, "share_of_goal").best == Approx(0.1));
  CHECK(*value(bay, "share_of_season_load").best == Approx(0.01 * 365 / 150));
  CHECK(*value(bay, "reaches_sea_anyway_share").best == Approx(0.769).margin(0.0005));
  CHECK(*value(bay, "nitrogen_kept_from_sea_kg").best == Approx(6.0 / 1.3));
  const Measured cost = value(bay, "cost_per_kg");
  CHECK(*cost.best == Approx(200.0));
  CHECK(*cost.p10 == Approx(1200.0 / *bay.all.nitrogen_p90_kg));
  CHECK(*cost.p90 == Approx(1200.0 / *bay.all.nitrogen_p10_kg));
}

TEST_CASE("a member without nitrogen has no end to its cost", "[report]") {
  Bay bay = compared_bays::bay("A", {-1, 6, 8});
  bay.money = MoneyPlan{1.0, 0.0};
  const Measured cost = value(bay, "cost_per_kg");
  CHECK(std::isinf(cost.members[0]));
  CHECK(cost.members[1] == Approx(100.0));
}

TEST_CASE("a bay without a site has no figure of one", "[report]") {
  Bay bay = compared_bays::bay("A", {4, 6, 8});
  bay.sites.clear();
  bay.all = {};
  bay.all_members = bay.best_members = {};
  CHECK_FALSE(value(bay, kOrderMeasure).best.has_value());
  CHECK_FALSE(value(bay, "season_days").best.has_value());
  CHECK_FALSE(value(bay, "nitrogen_kg_per_100_m").best.has_value());
  CHECK(value(bay, "water_ha").best == 200.0);
}

TEST_CASE("every measure has a spread from the members, or nothing uncertain bears on it",
          "[report]") {
  Bay bay = compared_bays::bay("A", {4, 6, 8});
  bay.best_members.season_days = {140, 150, 160};
  bay.all_members.yield_t = bay.best_members.yield_t = {1, 1.5, 2};
  bay.load = LoadPlan{};
  bay.load->nitrogen_kg_per_year = 600.0;
  bay.load->goal_percent = 10.0;
  bay.load->residence_months = 1.0;
  bay.money = MoneyPlan{1.0, 600.0};
  bay.landing_km = 2.0;
  bay.wave_50y_m = 1.5;
  bay.suitable_ha = 40.0;
  bay.members.suitable_ha = {30, 40, 50};
  bay.members.alone_kg = {5, 6, 10};
  for (const CompareMeasure& measure : compare_measures()) {
    const Measured one = measure.of(bay);
    INFO(measure.key);
    CHECK(one.best.has_value());
    CHECK(one.certain == one.members.empty());
    CHECK(one.certain != one.p10.has_value());
    CHECK(one.certain != one.p90.has_value());
  }
  CHECK(value(bay, "landing_km").certain);
  CHECK(*value(bay, "suitable_ha").p10 == Approx(32.0));
  CHECK(value(bay, "taken_from_each_other_share").members ==
        std::vector<double>{1.0 - 4.0 / 5.0, 0.0, 1.0 - 8.0 / 10.0});
}

TEST_CASE("where the depth is uncertain, so are shore, way and waves", "[report]") {
  Bay bay = compared_bays::bay("A", {4, 6, 8});
  bay.water_certain = bay.open_certain = false;
  bay.members.water_ha = {190, 200, 210};
  bay.members.open_ha = {40, 50, 63};
  bay.landing_km = 2.0;
  bay.members.landing_km = {2.0, 2.5, std::numeric_limits<double>::infinity()};
  bay.wave_50y_m = 1.5;
  bay.members.wave_50y_m = {1.4, 1.5, 1.6};
  CHECK(*value(bay, "water_ha").p10 == Approx(192.0));
  CHECK(value(bay, "open_share").members == std::vector<double>{40.0 / 190.0, 0.25, 63.0 / 210.0});
  CHECK(*value(bay, "landing_km").p10 == Approx(2.1));
  CHECK_FALSE(value(bay, "landing_km").p90.has_value());  // no way: no end
  CHECK(*value(bay, "wave_50y_m").p90 == Approx(1.58));
  CHECK_FALSE(value(bay, "wave_50y_m").certain);
}
