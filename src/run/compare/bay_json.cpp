// SPDX-License-Identifier: Apache-2.0
#include "run/compare/bay_json.hpp"

#include <cmath>
#include <concepts>
#include <limits>

namespace tidelot::run {
namespace {

using Json = nlohmann::ordered_json;

// fields() names each struct's members once; writing and reading both go by it.

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, LonLat> {
  f("lon", x.lon);
  f("lat", x.lat);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, XY> {
  f("x", x.x);
  f("y", x.y);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, LostWater> {
  f("name", x.name);
  f("ha", x.ha);
  f("only_ha", x.only_ha);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, MemberFigures> {
  f("yield_t", x.yield_t);
  f("nitrogen_kg", x.nitrogen_kg);
  f("season_days", x.season_days);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, LayerErrors> {
  f("input", x.input);
  f("basis", x.basis);
  f("judged", x.judged);
  f("z", x.z);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, Account> {
  f("sites", x.sites);
  f("line_m", x.line_m);
  f("hauled_t", x.hauled_t);
  f("stocked_t", x.stocked_t);
  f("dry_to_fresh", x.dry_to_fresh);
  f("nitrogen_kg", x.nitrogen_kg);
  f("stocked_nitrogen_kg", x.stocked_nitrogen_kg);
  f("nitrogen_p10_kg", x.nitrogen_p10_kg);
  f("nitrogen_p90_kg", x.nitrogen_p90_kg);
  f("gear_ha", x.gear_ha);
  f("lease_ha", x.lease_ha);
  f("season_days", x.season_days);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, LoadPlan> {
  f("nitrogen_kg_per_year", x.nitrogen_kg_per_year);
  f("kind", x.kind);
  f("segment", x.segment);
  f("period", x.period);
  f("year", x.year);
  f("goal_percent", x.goal_percent);
  f("residence_months", x.residence_months);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, MoneyPlan> {
  f("per_line_m", x.per_line_m);
  f("per_year", x.per_year);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, BaySite> {
  f("name", x.name);
  f("own", x.own);
  f("centre", x.centre);
  f("account", x.account);
  f("yield_t", x.yield_t);
  f("together_kg", x.together_kg);
  f("together_t", x.together_t);
  f("lines", x.lines);
  f("suitability", x.suitability);
  f("outplant", x.outplant);
  f("last_haul", x.last_haul);
  f("corners", x.corners);
  f("corners_xy", x.corners_xy);
  f("centre_xy", x.centre_xy);
  f("gear_middle", x.gear_middle);
  f("angle_deg", x.angle_deg);
  f("usable_m", x.usable_m);
  f("depth_min_m", x.depth_min_m);
  f("depth_max_m", x.depth_max_m);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, CropYield> {
  f("crop", x.crop);
  f("outplant", x.outplant);
  f("last_haul", x.last_haul);
  f("sites", x.sites);
  f("line_m", x.line_m);
  f("yield_t", x.yield_t);
  f("nitrogen_kg", x.nitrogen_kg);
  f("members", x.members);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, CropsInTurn> {
  f("cannot", x.cannot);
  f("cut", x.cut);
  f("first_from", x.first_from);
  f("second_from", x.second_from);
  f("first", x.first);
  f("second", x.second);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, BayMembers> {
  f("water_ha", x.water_ha);
  f("open_ha", x.open_ha);
  f("suitable_ha", x.suitable_ha);
  f("alone_kg", x.alone_kg);
  f("landing_km", x.landing_km);
  f("wave_50y_m", x.wave_50y_m);
}

template <typename F>
void fields(F&& f, auto& x) requires std::same_as<std::remove_cvref_t<decltype(x)>, Bay> {
  f("title", x.title);
  f("waterbody", x.waterbody);
  f("crop", x.crop);
  f("water_ha", x.water_ha);
  f("open_ha", x.open_ha);
  f("unknown_ha", x.unknown_ha);
  f("suitable_ha", x.suitable_ha);
  f("water_certain", x.water_certain);
  f("open_certain", x.open_certain);
  f("members", x.members);
  f("lost", x.lost);
  f("draws", x.draws);
  f("seed", x.seed);
  f("sites", x.sites);
  f("all", x.all);
  f("held_back_by", x.held_back_by);
  f("landing_km", x.landing_km);
  f("wave_50y_m", x.wave_50y_m);
  f("best_members", x.best_members);
  f("errors", x.errors);
  f("all_members", x.all_members);
  f("load", x.load);
  f("money", x.money);
}

struct Nothing {
  template <typename T>
  void operator()(const char*, T&) const {}
};
template <typename T>
concept Record = requires(T& x) {
  fields(Nothing{}, x);
};

template <typename T>
Json written(const T& value) {
  return Json(value);
}
/// JSON has no infinity: a member without an end stands as null.
Json written(const std::vector<double>& values) {
  Json out = Json::array();
  for (const double value : values) {
    out.push_back(std::isfinite(value) ? Json(value) : Json());
  }
  return out;
}
template <Record T>
Json written(const T& record);
template <typename T>
Json written(const std::optional<T>& value) {
  return value ? written(*value) : Json();
}
template <Record T>
Json written(const std::vector<T>& list) {
  Json out = Json::array();
  for (const T& each : list) {
    out.push_back(written(each));
  }
  return out;
}
template <Record T>
Json written(const T& record) {
  Json out = Json::object();
  fields([&](const char* key, const auto& value) { out[key] = written(value); }, record);
  return out;
}

template <typename T>
void read(const Json& json, T& value) {
  json.get_to(value);
}
void read(const Json& json, std::vector<double>& values) {
  for (const Json& each : json) {
    values.push_back(each.is_null() ? std::numeric_limits<double>::infinity() : each.get<double>());
  }
}
template <Record T>
void read(const Json& json, T& record);
template <typename T>
void read(const Json& json, std::optional<T>& value) {
  if (!json.is_null()) {
    read(json, value.emplace());
  }
}
template <Record T>
void read(const Json& json, std::vector<T>& list) {
  for (const Json& each : json) {
    read(each, list.emplace_back());
  }
}
template <Record T>
void read(const Json& json, T& record) {
  fields([&](const char* key, auto& value) { read(json.at(key), value); }, record);
}

}  // namespace

Json bay_json(const Bay& bay) { return written(bay); }
Json members_json(const BayMembers& members) { return written(members); }
Json turn_json(const CropsInTurn& turn) { return written(turn); }

Bay bay_from(const Json& json) {
  Bay bay;
  read(json, bay);
  return bay;
}

BayMembers members_from(const Json& json) {
  BayMembers members;
  read(json, members);
  return members;
}

CropsInTurn turn_from(const Json& json) {
  CropsInTurn turn;
  read(json, turn);
  return turn;
}

}  // namespace tidelot::run
