// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "tidelot/report/report.hpp"

using namespace tidelot;

namespace {

Site some_site(const std::string& name) {
  Site site;
  site.name = name;
  site.size = {189.74, 63.25};
  site.gear.box_area_ha = 0.5311355;
  site.layout.line_m = 600.0;
  site.area_ha = 1.2;
  site.yield_t = 3.0;
  site.nitrogen_kg = 12.0;
  site.stocked_t = 0.06;
  site.stocked_nitrogen_kg = 0.24;
  site.outplant = 151;
  site.last_haul = 223;
  SiteSeason season;
  season.window = {SeasonState::grows, 151, 223};
  season.dry_to_fresh = 0.1;
  site.season = season;
  return site;
}

std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> out{""};
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      out.emplace_back();
    } else {
      out.back() += c;
    }
  }
  return out;
}

std::vector<std::map<std::string, std::string>> table(const std::string& csv) {
  std::istringstream lines(csv);
  std::string line;
  std::getline(lines, line);
  const std::vector<std::string> header = cells(line);
  std::vector<std::map<std::string, std::string>> rows;
  while (std::getline(lines, line)) {
    const std::vector<std::string> row = cells(line);
    REQUIRE(row.size() == header.size());
    rows.emplace_back();
    for (std::size_t i = 0; i < row.size(); ++i) {
      rows.back()[header[i]] = row[i];
    }
  }
  return rows;
}

}  // namespace

TEST_CASE("the load table by hand: a row a site and one for all", "[report]") {
  Plan plan;
  plan.load = LoadPlan{1200.0, "total N, all sources", "inner bay", "", 2024, 25.0, 1.0};
  plan.money = MoneyPlan{9.5, 30'000.0};
  std::vector<Site> sites{some_site("S01"), some_site("S02")};
  sites[1].with_neighbours = WithNeighbours{2.5, 9.0, {"S01"}};
  auto rows = table(load_csv(sites, plan));
  REQUIRE(rows.size() == 3);
  auto& one = rows[0];
  CHECK(one["note"] == "estimate, not a credit");
  CHECK(one["name"] == "S01");
  CHECK(one["baseline_year"] == "2024");
  CHECK(one["load_kind"] == "total N, all sources");
  CHECK(one["load_lb_per_year"] == "2645.547");  // 1200 / 0.45359237
  CHECK(one["goal_kg_per_year"] == "300.000");
  CHECK(one["outplant"] == "05-31");
  CHECK(one["season_days"] == "73");
  CHECK(one["hauled_kg"] == "3060.000");
  CHECK(one["stocked_kg"] == "60.000");
  CHECK(one["dry_to_fresh"] == "0.1000");
  CHECK(one["nitrogen_of_dry_percent"] == "4.000");
  CHECK(one["net_nitrogen_kg_per_season"] == "12.000");
  CHECK(one["net_nitrogen_lb_per_year"] == "26.455");
  CHECK(one["net_nitrogen_kg_p10"].empty());
  CHECK(one["kg_per_100_m"] == "2.0000");
  CHECK(one["lb_per_100_ft"] == "1.3439");  // 2 x 0.3048 / 0.45359237
  CHECK(one["gear_box_ha"] == "0.5311");
  CHECK(one["kg_per_ha_gear_box"] == "22.593");
  CHECK(one["lb_per_acre_gear_box"] == "20.157");  // x 0.892179
  CHECK(one["kg_per_ha_site"] == "10.000");
  CHECK(one["lb_per_acre_site"] == "8.922");
  CHECK(one["share_of_load_percent"] == "1.00000");
  CHECK(one["share_of_goal_percent"] == "4.00000");
  CHECK(one["share_of_season_load_percent"] == "5.00000");
  CHECK(one["reaches_sea_anyway_percent"] == "76.92");
  CHECK(one["nitrogen_kept_from_sea_kg"] == "9.231");
  CHECK(one["cost_per_kg"] == "2975.00");
  CHECK(one["cost_per_kg_low"].empty());
  auto& all = rows[2];
  CHECK(all["name"] == "all at once");
  CHECK(all["net_nitrogen_kg_per_season"] == "21.000");  // in each other's water
  CHECK(all["outplant"].empty());
  CHECK(all["cost_per_kg"] == "3400.00");  // (9.5 x 1200 + 60000) / 21
}

TEST_CASE("without load and money their cells stand empty; without sites the header alone",
          "[report]") {
  Site site = some_site("S01");
  site.season.reset();
  auto rows = table(load_csv(std::vector{site}, Plan{}));
  REQUIRE(rows.size() == 2);
  CHECK(rows[0]["load_kg_per_year"].empty());
  CHECK(rows[0]["share_of_load_percent"].empty());
  CHECK(rows[0]["cost_per_kg"].empty());
  CHECK(rows[0]["season_days"].empty());
  CHECK(rows[0]["nitrogen_of_dry_percent"].empty());
  CHECK(rows[0]["kg_per_100_m"] == "2.0000");
  CHECK(table(load_csv({}, Plan{})).empty());
}

TEST_CASE("a plan's words can't become a formula or a column", "[report]") {
  Plan plan;
  plan.load = LoadPlan{1200.0, "=1+1", "a,b", "", {}, {}, {}};
  auto rows = table(load_csv(std::vector{some_site("S01")}, plan));
  CHECK(rows[0]["load_kind"] == "'=1+1");
  CHECK(rows[0]["segment"] == "a,b");
  for (const auto& [raw, safe] : {std::pair("+1", "'+1"), std::pair("-1", "'-1"),
                                  std::pair("@a", "'@a"), std::pair("\uFF1D1", "'\uFF1D1"),
                                  std::pair("a;=1;-2", "a;'=1;'-2"), std::pair("a = 1", "a = 1")}) {
    plan.load->kind = raw;
    rows = table(load_csv(std::vector{some_site("S01")}, plan));
    CHECK(rows[0]["load_kind"] == safe);
  }
}
