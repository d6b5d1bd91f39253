// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_limits.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

namespace {

constexpr SeasonWindow kWater{SeasonState::grows, 143, 314};  // 05-23 to 11-10

FarmPlan farm(std::optional<DayOfYear> outplant, std::optional<DayOfYear> last_haul) {
  FarmPlan plan;
  plan.outplant = outplant;
  plan.last_haul = last_haul;
  return plan;
}

DayTrace day_of(double temperature, double f_temperature, double harvest) {
  DayTrace day{};
  day.forcing = {temperature, 29.0, 0.8, 5.0, 0.15, 40.0, 14.0};
  day.f_temperature = f_temperature;
  day.f_salinity = day.f_light = day.f_nitrogen = day.f_density = 1.0;
  day.biomass_g_per_m = 200.0;
  day.tissue_n = 0.03;
  day.harvest_g_per_m = harvest;
  return day;
}

}  // namespace

TEST_CASE("dates that the water is left to find never warn") {
  const std::vector<run::WaterSeason> places{{"S01", kWater}};
  CHECK(run::date_warnings(farm({}, {}), places).empty());
}

TEST_CASE("a week off is let pass, a day more is told with both dates") {
  const std::vector<run::WaterSeason> places{{"S01", kWater}};
  CHECK(run::date_warnings(farm(136, 321), places).empty());
  const auto lines = run::date_warnings(farm(135, 322), places);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] ==
        "farm.outplant: 05-15 is used as given, but the water says otherwise at S01 (05-23)");
  CHECK(lines[1] ==
        "farm.last_haul: 11-18 is used as given, but the water says otherwise at S01 (11-10)");
}

TEST_CASE("only the places that are off are named, and water without a season is") {
  const std::vector<run::WaterSeason> places{{"S01", kWater},
                                             {"S02", {SeasonState::grows, 160, 300}},
                                             {"S03", {SeasonState::too_cold, 0, 0}}};
  const auto lines = run::date_warnings(farm(143, {}), places);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].find("at S02 (06-09), S03 (no season)") != std::string::npos);
}

TEST_CASE("dates are compared the shorter way round the year, hauls over the new year too") {
  const std::vector<run::WaterSeason> places{{"S01", {SeasonState::grows, 362, 365 + 3}}};
  CHECK(run::date_warnings(farm(2, 3), places).empty());
  CHECK(run::date_warnings(farm(7, 3), places).size() == 1);
}

TEST_CASE("a site's season keeps its months, harvests and curves") {
  run::CellSeason cell{{SeasonState::grows, 150, 153}, kWater, {}};  // 30 May to 2 June
  cell.growth.days = {day_of(15.0, 0.4, 0.0), day_of(15.0, 0.4, 100.0), day_of(25.0, 1.0, 0.0),
                      day_of(36.0, 0.0, 200.0)};
  Plan plan;
  const SiteSeason season = run::site_season_of(cell, plan, {8.0, 25.0, 34.0, 10.0, 45.0, 29.0});
  REQUIRE(season.months.size() == 2);
  CHECK(limits_by_month(season.months) == "May cold; Jun warm");
  CHECK(season.beyond.too_warm == 1);
  REQUIRE(season.harvests.size() == 2);
  CHECK(season.harvests[0].day == 1);
  CHECK(season.harvests[1].g_per_m == 200.0);
  CHECK(season.biomass_g_per_m.size() == 4);
  CHECK(season.water.outplant == 143);
}

TEST_CASE("no season leaves an empty record, not a missing one") {
  const run::CellSeason cell{{SeasonState::too_cold, 0, 0}, {SeasonState::too_cold, 0, 0}, {}};
  const SiteSeason season = run::site_season_of(cell, Plan{}, {8.0, 25.0, 34.0, 10.0, 45.0, 29.0});
  CHECK(season.months.empty());
  CHECK(season.harvests.empty());
}

TEST_CASE("the dry weight of the hauls follows from their nitrogen") {
  SeasonResult growth;
  growth.days = {day_of(20, 1, 100.0), day_of(20, 1, 0.0), day_of(20, 1, 300.0)};
  growth.days[2].tissue_n = 0.05;
  // 0.1 dry over fresh: 100 g at 3 % and 300 g at 5 % hold 0.3 + 1.5 g of nitrogen, gross.
  growth.yield_g_per_m = 300.0;
  growth.nitrogen_g_per_m = 1.4;
  const Stocked put_out{100.0, 0.4};
  CHECK(run::haul_dry_to_fresh(growth, put_out) == Approx(0.1));
  CHECK(run::haul_dry_to_fresh(SeasonResult{}, put_out) == 0.0);
}

TEST_CASE("the current told is its mean over the days of the season") {
  run::CellSeason cell;
  cell.window = {SeasonState::grows, 150, 152};
  cell.growth.days = {day_of(20, 1, 0), day_of(20, 1, 0), day_of(20, 1, 0)};
  cell.growth.days[2].forcing.current = 0.30;
  CHECK(run::site_season_of(cell, Plan{}, {8.0, 25.0, 34.0, 10.0, 45.0, 29.0}).current_m_s ==
        Approx(0.2));
}
