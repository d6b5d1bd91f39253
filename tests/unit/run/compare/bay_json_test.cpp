// SPDX-License-Identifier: Apache-2.0
#include "run/compare/bay_json.hpp"

#include <catch2/catch.hpp>
#include <limits>

using namespace tidelot;

namespace {

Bay little_bay() {
  Bay bay;
  bay.title = "A \"bay\", <here>";
  bay.water_ha = 1.0 / 3.0;
  bay.lost = {{"eelgrass beds", 0.1, 0.0}};
  bay.draws = 2;
  bay.seed = 9007199254740991;
  BaySite site;
  site.name = "S01";
  site.centre = {-30.0601, 41.0275};
  site.account.nitrogen_kg = 3.8399999999999999;
  site.account.nitrogen_p10_kg = 2.1;
  site.corners = {{-30.06, 41.02}, {-30.05, 41.02}};
  bay.sites = {site};
  bay.best_members.nitrogen_kg = {0.1 + 0.2, 3e-300};
  bay.errors = {{"depth", "depth.error_m", false, {-0.25, 0.25}}};
  bay.members.landing_km = {1.25, std::numeric_limits<double>::infinity()};
  bay.load = LoadPlan{};
  bay.load->nitrogen_kg_per_year = 52000;
  bay.load->year = 2024;
  return bay;
}

}  // namespace

TEST_CASE("a bay comes back from its text to the last digit", "[run]") {
  const Bay bay = little_bay();
  const std::string text = run::bay_json(bay).dump();
  const Bay again = run::bay_from(nlohmann::ordered_json::parse(text));
  CHECK(run::bay_json(again).dump() == text);
  CHECK(again.water_ha == bay.water_ha);
  CHECK(again.best_members.nitrogen_kg == bay.best_members.nitrogen_kg);
  CHECK(again.sites[0].account.nitrogen_p10_kg == 2.1);
  CHECK_FALSE(again.sites[0].account.nitrogen_p90_kg.has_value());
  CHECK_FALSE(again.landing_km.has_value());
  CHECK(again.members.landing_km == bay.members.landing_km);
  CHECK(again.load->year == 2024);
  CHECK_FALSE(again.load->goal_percent.has_value());
  CHECK_FALSE(again.money.has_value());
}

TEST_CASE("a bay that lacks something is refused", "[run]") {
  auto json = run::bay_json(little_bay());
  json.erase("water_ha");
  CHECK_THROWS(run::bay_from(json));
}

TEST_CASE("two crops in turn come back from their text to the last digit", "[run]") {
  CropsInTurn turn;
  turn.cut = true;
  turn.first_from = 140;
  turn.second.crop = "sugar-kelp";
  turn.second.nitrogen_kg = 1.0 / 3.0;
  turn.second.members.nitrogen_kg = {0.1, 1.0 / 7.0};
  const std::string text = run::turn_json(turn).dump();
  const CropsInTurn again = run::turn_from(nlohmann::ordered_json::parse(text));
  CHECK(run::turn_json(again).dump() == text);
  CHECK(again.second.members.nitrogen_kg == turn.second.members.nitrogen_kg);
  CHECK(again.cut);
}
