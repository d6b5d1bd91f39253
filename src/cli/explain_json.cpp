// SPDX-License-Identifier: Apache-2.0
#include <nlohmann/json.hpp>

#include "cli/explain_parts.hpp"
#include "report/tables/near_json.hpp"
#include "report/words/cautions.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/growth/crop_model.hpp"
#include "tidelot/growth/limits.hpp"

namespace tidelot::cli {
namespace {

using Json = nlohmann::ordered_json;

std::string_view state_word(SeasonState state) {
  switch (state) {
    case SeasonState::too_cold:
      return "too cold";
    case SeasonState::too_hot:
      return "too warm";
    case SeasonState::outside_gear:
      return "outside the gear dates";
    case SeasonState::grows:
      break;
  }
  return "grows";
}

Json window_json(const SeasonWindow& window) {
  const bool grows = window.state == SeasonState::grows;
  return {{"state", state_word(window.state)},
          {"outplant", grows ? Json(format_month_day(window.outplant)) : Json()},
          {"last_haul", grows ? Json(format_month_day(window.last_haul)) : Json()},
          {"days", window.days()}};
}

Json given(const std::optional<DayOfYear>& day) {
  return day ? Json(format_month_day(*day)) : Json();
}

Json beyond_json(const ToleranceDays& days) {
  return {{"too_cold", days.too_cold},
          {"too_warm", days.too_warm},
          {"too_fresh", days.too_fresh},
          {"too_salty", days.too_salty}};
}

Json month_json(const SeasonMonth& month) {
  const auto& f = month.mean_factor;
  return {{"month", month_name(month.month)},
          {"first_day", format_month_day(month.first)},
          {"days", month.days},
          {"temperature", month.temperature},
          {"salinity", month.salinity},
          {"light_at_line", month.light_at_line},
          {"nitrogen", month.nitrogen},
          {"growth_percent_per_day", 100.0 * month.growth_per_day},
          {"held_back_by", limit_phrase(month.limit)},
          {"mean_factors",
           {{"temperature", f[0]},
            {"salinity", f[1]},
            {"light", f[2]},
            {"nitrogen", f[3]},
            {"crowding", f[4]}}},
          {"days_beyond_tolerance", beyond_json(month.beyond)}};
}

Json months_json(const Plan& plan, const Explanation& e) {
  Json out = Json::array();
  for (const SeasonMonth& month : season_months(e.growth.days, e.season.outplant,
                                                husbandry_of(plan), limit_thresholds(plan.crop))) {
    out.push_back(month_json(month));
  }
  return out;
}

Json harvests_json(const Explanation& e) {
  Json out = Json::array();
  for (std::size_t i = 0; i < e.growth.days.size(); ++i) {
    if (const DayTrace& day = e.growth.days[i]; day.harvest_g_per_m > 0.0) {
      out.push_back({{"date", format_month_day(e.season.outplant + static_cast<int>(i))},
                     {"kg_per_m", day.harvest_g_per_m / 1000.0}});
    }
  }
  return out;
}

Json series_json(const Explanation& e) {
  Json biomass = Json::array();
  Json tissue = Json::array();
  for (const DayTrace& day : e.growth.days) {
    biomass.push_back(day.biomass_g_per_m);
    tissue.push_back(100.0 * day.tissue_n);
  }
  return {{"biomass_g_per_m", std::move(biomass)}, {"tissue_n_percent", std::move(tissue)}};
}

Json season_json(const Plan& plan, const Explanation& e) {
  const LimitThresholds limits = limit_thresholds(plan.crop);
  return {{"window", window_json(e.season)},
          {"water_window", window_json(e.water_season)},
          {"outplant_given", given(plan.farm.outplant)},
          {"last_haul_given", given(plan.farm.last_haul)},
          {"gear_in", given(plan.season.gear_in)},
          {"gear_out", given(plan.season.gear_out)},
          {"yield_kg_per_m", e.growth.yield_g_per_m / 1000.0},
          {"nitrogen_g_per_m", e.growth.nitrogen_g_per_m},
          {"nitrogen_taken_up_g_per_m", e.growth.uptake_g_per_m},
          {"nitrogen_lost_g_per_m", e.growth.lost_n_g_per_m},
          {"months", months_json(plan, e)},
          {"days_beyond_tolerance", beyond_json(days_beyond(e.growth.days, limits))},
          {"harvests", harvests_json(e)},
          {"daily", series_json(e)}};
}

Json criteria_json(const Plan& plan, const Explanation& e) {
  Json out = Json::array();
  for (std::size_t i = 0; i < plan.criteria.size() && i < e.criterion_scores.size(); ++i) {
    out.push_back({{"name", plan.criteria[i].name},
                   {"score", e.criterion_scores[i]},
                   {"weight", plan.criteria[i].weight}});
  }
  return out;
}

Json rules_json(const Plan& plan, const Explanation& e) {
  Json out = Json::array();
  for (const RuleDistance& distance : e.rules) {
    const ClosedPlan& rule = plan.closed[static_cast<std::size_t>(distance.rule)];
    out.push_back({{"name", rule.name},
                   {"effect", rule.caution ? "caution" : "close"},
                   {"applies", rule.applies},
                   {"here", effect_of(rule, distance, e) != "-"},
                   {"setback_m", distance.setback_m},
                   {"distance_m", distance.distance_m},
                   {"bearing_deg", distance.distance_m > 0.0 ? Json(distance.bearing_deg) : Json()},
                   {"rule", rule.rule}});
  }
  return out;
}

Json waves_json(const Explanation& e) {
  if (!e.waves) {
    return nullptr;
  }
  return {
      {"height_50y_m", e.waves->height_50y_m}, {"period_50y_s", e.waves->period_50y_s},
      {"height_1y_m", e.waves->height_1y_m},   {"share_above_working_limit", e.waves->share_above},
      {"at_line_m_s", e.waves->at_line_m_s},   {"at_bed_m_s", e.waves->at_bed_m_s}};
}

Json cautions_json() {
  Json out = Json::array();
  for (const std::size_t number : kPlaceCautions) {
    out.push_back({{"number", number}, {"text", page::short_cautions().at(number - 1)}});
  }
  return out;
}

}  // namespace

std::string explain_json(const Plan& plan, const Explanation& e) {
  const Json out{{"title", plan.title},
                 {"place", {{"lon", e.at.lon}, {"lat", e.at.lat}}},
                 {"cell",
                  {{"column", e.cell.col},
                   {"row", e.cell.row},
                   {"lon", e.cell_centre.lon},
                   {"lat", e.cell_centre.lat}}},
                 {"depth_low_water_m", e.depth_low_water},
                 {"depth_high_water_m", e.depth_low_water + plan.depth.tidal_range_m},
                 {"depth_datum", plan.depth.datum},
                 {"depth_source", e.depth_source},
                 {"slope_deg", e.evidence.slope_deg},
                 {"waves", waves_json(e)},
                 {"suitability", e.score.suitability},
                 {"reason", e.reason},
                 {"closed_by", e.closed_by},
                 {"criteria", criteria_json(plan, e)},
                 {"crop", plan.crop.name},
                 {"season", e.grown ? season_json(plan, e) : Json()},
                 {"rules", rules_json(plan, e)},
                 {"near", page::near_json(e.near, plan)},
                 {"warnings", e.warnings},
                 {"cautions", cautions_json()}};
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tidelot::cli
