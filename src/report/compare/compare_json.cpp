// SPDX-License-Identifier: Apache-2.0
// compare.json: everything of the page for machines, to the last digit.
#include <cmath>
#include <nlohmann/json.hpp>

#include "report/compare/compare_words.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/version.hpp"
#include "tidelot/report/compare.hpp"

namespace tidelot {
namespace {

using Json = nlohmann::ordered_json;

Json maybe(const std::optional<double>& value) {
  return value && std::isfinite(*value) ? Json(*value) : Json();
}

/// How far a figure may be off: told by the members, not at all, or not computed.
std::string spread_word(const Measured& value) {
  return !value.best             ? "no value"
         : value.certain         ? page::label("compare.not_uncertain")
         : value.members.empty() ? "not computed"
                                 : "P10 to P90 of the members";
}

Json measures_json(const Bay& bay) {
  Json out = Json::object();
  for (const CompareMeasure& measure : compare_measures()) {
    const Measured value = measure.of(bay);
    Json one{{"best", maybe(value.best)}, {"unit", measure.unit}};
    one["p10"] = maybe(value.p10);
    one["p90"] = maybe(value.p90);
    one["spread"] = spread_word(value);
    out[std::string(measure.key)] = std::move(one);
  }
  return out;
}

Json lost_json(const Bay& bay) {
  Json out = Json::array();
  for (const LostWater& one : bay.lost) {
    out.push_back({{"to", one.name}, {"ha", one.ha}, {"ha_only", one.only_ha}});
  }
  return out;
}

Json sites_json(const Bay& bay) {
  Json out = Json::array();
  for (const BaySite& site : bay.sites) {
    out.push_back({{"name", site.name},
                   {"lon", site.centre.lon},
                   {"lat", site.centre.lat},
                   {"line_m", site.account.line_m},
                   {"lines", site.lines},
                   {"yield_t", site.yield_t},
                   {"nitrogen_kg", site.account.nitrogen_kg},
                   {"yield_with_neighbours_t", site.together_t},
                   {"nitrogen_with_neighbours_kg", site.together_kg},
                   {"outplant", format_month_day(site.outplant)},
                   {"last_haul", format_month_day(site.last_haul)}});
  }
  return out;
}

Json load_json(const LoadPlan& load) {
  return {{"nitrogen_kg_per_year", load.nitrogen_kg_per_year},
          {"kind", load.kind},
          {"segment", load.segment},
          {"period", load.period},
          {"year", load.year ? Json(*load.year) : Json()},
          {"goal_percent", maybe(load.goal_percent)},
          {"residence_months", maybe(load.residence_months)}};
}

Json need_json(const std::optional<TargetNeed>& need) {
  return need ? Json{{"sites", need->sites},
                     {"line_m", need->line_m},
                     {"lease_ha", need->lease_ha},
                     {"nitrogen_kg", need->nitrogen_kg}}
              : Json();
}

Json target_json(const TargetFinding& target) {
  return {{"best", need_json(target.best)},
          {"nine_members_in_ten", need_json(target.nine_in_ten)},
          {"most_kg", target.most_kg},
          {"sites_found", target.sites_found},
          {"no_more_fit", target.all_found}};
}

Json spread_json(const Measured& value) {
  return {{"best", maybe(value.best)}, {"p10", maybe(value.p10)}, {"p90", maybe(value.p90)}};
}

Json day_json(DayOfYear day) { return day > 0 ? Json(format_month_day(day)) : Json(); }

Json crop_json(const CropYield& crop) {
  return {{"crop", crop.crop},
          {"outplant", day_json(crop.outplant)},
          {"last_haul", day_json(crop.outplant > 0 ? crop.last_haul : 0)},
          {"months", months_of(crop)},
          {"sites", crop.sites},
          {"line_m", crop.line_m},
          {"nitrogen_kg", spread_json(nitrogen_of(crop))},
          {"yield_t", spread_json(yield_of(crop))}};
}

Json assumed_json(const std::vector<AssumedKey>& keys) {
  const auto value = [](const std::string& json) {
    return json.empty() ? Json() : Json::parse(json, nullptr, false);
  };
  Json out = Json::array();
  for (const AssumedKey& key : keys) {
    out.push_back({{"key", key.key},
                   {"planned", value(key.planned)},
                   {"assumed", value(key.assumed)},
                   {"why", key.why}});
  }
  return out;
}

Json turn_json(const CropsInTurn& turn) {
  if (!turn.cannot.empty()) {
    return {{"cannot", turn.cannot}};
  }
  return {{"cannot", nullptr},
          {"seasons_overlap", turn.cut},
          {"first_from", day_json(turn.first_from)},
          {"second_from", day_json(turn.second_from)},
          {"first", crop_json(turn.first)},
          {"second", crop_json(turn.second)},
          {"nitrogen_kg", spread_json(nitrogen_in_turn(turn))},
          {"yield_t", spread_json(yield_in_turn(turn))}};
}

Json crops_json(const ComparedBay& one) {
  return {{"first", crop_json(crop_yield_of(one.bay))},
          {"second", crop_json(one.crops->second)},
          {"in_turn", turn_json(one.crops->turn)},
          {"assumed_of_first", assumed_json(one.crops->assumed_of_first)},
          {"assumed_of_second", assumed_json(one.crops->assumed_of_second)}};
}

Json bay_json(const ComparedBay& one) {
  Json out{{"estuary", one.name},
           {"title", one.bay.title},
           {"crop", one.bay.crop},
           {"draws", one.bay.draws},
           {"seed", one.bay.seed},
           {"measures", measures_json(one.bay)},
           {"lost_to", lost_json(one.bay)},
           {"sites", sites_json(one.bay)},
           {"held_back_by", one.bay.held_back_by},
           {"load", one.bay.load ? load_json(*one.bay.load) : Json()}};
  if (one.target) {
    out["target"] = target_json(*one.target);
  }
  if (one.crops) {
    out["crops"] = crops_json(one);
  }
  return out;
}

Json order_json(const Comparison& all, const MeasureOrder& order) {
  Json names = Json::array(), pairs = Json::array();
  for (const std::size_t bay : order.order) {
    names.push_back(all.bays[bay].name);
  }
  for (const PairChance& pair : order.pairs) {
    pairs.push_back({{"a", all.bays[pair.a].name},
                     {"b", all.bays[pair.b].name},
                     {"chance_a_better", pair.a_better},
                     {"tie", pair.tie}});
  }
  Json places = Json::object();
  for (std::size_t bay = 0; bay < order.places.size(); ++bay) {
    places[all.bays[bay].name] = order.places[bay];
  }
  return {{"order", names}, {"pairs", pairs}, {"chance_of_place", places}};
}

Json differences_json(const Comparison& all) {
  Json out = Json::array();
  for (const KeyDifference& one : all.differences) {
    Json values = Json::object();
    for (std::size_t i = 0; i < one.values.size(); ++i) {
      values[all.names[i]] =
          one.values[i].empty() ? Json() : Json::parse(one.values[i], nullptr, false);
    }
    out.push_back({{"key", one.key}, {"values", values}});
  }
  return out;
}

Json to_measure_json(const Comparison& all, const std::vector<MeasureOrder>& orders) {
  Json out = Json::array();
  for (const ToMeasure& one : to_measure(all, order_by(orders, kOrderMeasure))) {
    out.push_back({{"estuary", all.bays[one.bay].name},
                   {"input", one.input},
                   {"basis", one.basis},
                   {"measured", !one.judged},
                   {"share_of_variance", one.share}});
  }
  return out;
}

}  // namespace

std::string compare_json(const Comparison& all) {
  Json bays = Json::array(), failed = Json::array(), by_measure = Json::object();
  for (const ComparedBay& one : all.bays) {
    bays.push_back(bay_json(one));
  }
  for (const FailedBay& one : all.failed) {
    failed.push_back({{"plan", one.plan}, {"why", one.why}});
  }
  const std::vector<MeasureOrder> orders = orders_of(all);
  for (const MeasureOrder& order : orders) {
    by_measure[std::string(compare_measures()[order.measure].key)] = order_json(all, order);
  }
  if (all.crops) {
    by_measure["nitrogen_in_turn_kg"] = order_json(all, order_in_turn(all));
  }
  const Json out{{"program", "tidelot"},
                 {"version", version()},
                 {"partial", !all.failed.empty()},
                 {"measured_alike", all.differences.empty()},
                 {"differences", differences_json(all)},
                 {"paired", paired(all)},
                 {"told_apart_from", kToldApart},
                 {"ordered_by", kOrderMeasure},
                 {"estuaries", std::move(bays)},
                 {"failed", std::move(failed)},
                 {"orders", std::move(by_measure)},
                 {"measure_first", to_measure_json(all, orders)},
                 {"target_kg", maybe(all.target_kg)},
                 {"crops", all.crops ? Json{all.crops->first, all.crops->second} : Json()}};
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tidelot
