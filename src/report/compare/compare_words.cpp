// SPDX-License-Identifier: Apache-2.0
#include "report/compare/compare_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/parts.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/units.hpp"

namespace tidelot {

const MeasureOrder& order_by(const std::vector<MeasureOrder>& orders, std::string_view key) {
  return *std::find_if(orders.begin(), orders.end(), [&](const MeasureOrder& order) {
    return compare_measures()[order.measure].key == key;
  });
}

std::string state_words(const Comparison& all) {
  return all.failed.empty() ? page::label("compare.complete")
                            : page::plain_say("compare.partial", all.failed.size(),
                                              all.failed.size() + all.bays.size());
}

namespace page {
namespace {

Measure plain(const std::string& words) { return {words, words}; }

Measure number(double value) { return plain(fixed(value, 0)); }
Measure days(double value) { return plain(plain_say("compare.days", fixed(value, 0))); }
Measure months(double value) {
  return plain(value == 1.0 ? label("compare.one_month")
                            : plain_say("compare.months", shortest(value)));
}
/// Shares of a load are small: three figures of a percentage.
Measure share(double value) {
  const double percentage = 100.0 * value;
  const double size = std::abs(percentage);
  const int decimals = size == 0.0 ? 0 : size < 0.995 ? 3 : size < 9.95 ? 2 : 1;
  return plain(plain_say("words.percent", fixed(percentage, decimals)));
}
Measure money(double value) {
  return plain(plain_say("compare.per_kg", fixed(value, value < 99.5 ? 1 : 0)));
}
Measure way(double km) { return distance(1000.0 * km); }
Measure wave(double m) { return length(m, 1); }
/// None at all is 0 ha, not 0.000.
Measure hectares(double ha) {
  return ha == 0.0 ? Measure{"0 " + label("words.ha"), "0 " + label("words.acres")} : area(ha);
}
Measure line(double m) { return length(m, 0); }
/// Fresh weight of 100 m of line in kg.
Measure crop_per_100_m(double kg) {
  const double lb_per_100_ft = kg * kFootM / kPoundKg;
  return {fixed(kg, 0) + " " + label("words.kg"),
          fixed(lb_per_100_ft, 0) + " " + label("words.lb_per_100_ft")};
}

struct MeasurePrint {
  std::string_view key;
  Measure (*print)(double);
};
constexpr std::array<MeasurePrint, 31> kPrints{{
    {"water_ha", hectares},
    {"open_ha", hectares},
    {"open_share", share},
    {"suitable_ha", hectares},
    {"unknown_ha", hectares},
    {"season_days", days},
    {"sites", number},
    {"lines", number},
    {"line_m", line},
    {"lease_ha", area},
    {"yield_best_site_t", crop},
    {"nitrogen_best_site_kg", nitrogen},
    {"yield_all_sites_t", crop},
    {kOrderMeasure, nitrogen},
    {"taken_from_each_other_share", share},
    {"yield_kg_per_100_m", crop_per_100_m},
    {"nitrogen_kg_per_100_m", nitrogen_per_100_m},
    {"yield_t_per_ha_gear_box", crop_per_ha},
    {"nitrogen_kg_per_ha_gear_box", nitrogen_per_ha},
    {"yield_t_per_ha_site", crop_per_ha},
    {"nitrogen_kg_per_ha_site", nitrogen_per_ha},
    {"load_kg_per_year", nitrogen},
    {"share_of_load", share},
    {"share_of_goal", share},
    {"share_of_season_load", share},
    {"residence_months", months},
    {"reaches_sea_anyway_share", share},
    {"nitrogen_kept_from_sea_kg", nitrogen},
    {"cost_per_kg", money},
    {"landing_km", way},
    {"wave_50y_m", wave},
}};

std::string in_units(std::string_view key, double value, Units units) {
  return in_line(measure_words(key, value), units);
}

const ComparedBay& bay_at(const Comparison& all, const MeasureOrder& order, std::size_t place) {
  return all.bays[order.order[place]];
}

Measured value_of(const ComparedBay& one, std::string_view key) {
  const auto measures = compare_measures();
  return std::find_if(measures.begin(), measures.end(),
                      [&](const CompareMeasure& m) { return m.key == key; })
      ->of(one.bay);
}

/// "Heron Bight would carry off most nitrogen: 18.0 kg a year from 5 sites (11.2 to 23.0 kg)."
std::string first_sentence(const Comparison& all, const MeasureOrder& order) {
  const ComparedBay& first = bay_at(all, order, 0);
  const Measured value = value_of(first, kOrderMeasure);
  if (!value.best) {
    return label("compare.none_has_a_site");
  }
  const std::string range = range_words(kOrderMeasure, value, all.units);
  return plain_say("compare.most", first.name, in_units(kOrderMeasure, *value.best, all.units),
                   site_count(first.bay.sites.size()),
                   range.empty() ? "" : plain_say("compare.range", range));
}

const PairChance* pair_of(const MeasureOrder& order, std::size_t a, std::size_t b) {
  const auto found = std::find_if(order.pairs.begin(), order.pairs.end(), [&](const auto& pair) {
    return pair.a == std::min(a, b) && pair.b == std::max(a, b);
  });
  return found == order.pairs.end() ? nullptr : &*found;
}

/// How sure it is that the one is above the next.
std::string step_sentence(const Comparison& all, const MeasureOrder& order, std::size_t place) {
  const std::size_t a = order.order[place], b = order.order[place + 1];
  const std::string &first = all.bays[a].name, &second = all.bays[b].name;
  const Measured next = value_of(all.bays[b], kOrderMeasure);
  if (!next.best) {
    const std::string& why = all.bays[b].bay.held_back_by;
    return plain_say("compare.has_no_site", second,
                     why.empty() ? label("compare.nothing_fits") : translated(why));
  }
  const std::string figure = in_units(kOrderMeasure, *next.best, all.units);
  const PairChance* pair = pair_of(order, a, b);
  if (pair == nullptr) {
    return plain_say("compare.follows", second, figure);
  }
  const std::string chance = chance_words(pair->a == a ? pair->a_better : 1.0 - pair->a_better);
  return pair->tie ? plain_say("compare.tie", first, second, chance, percent(kToldApart),
                               in_units(kOrderMeasure, *value_of(all.bays[a], kOrderMeasure).best,
                                        all.units),
                               figure)
                   : plain_say("compare.gives_more", first, second, figure, chance);
}

std::string cost_sentence(const Comparison& all, const std::vector<MeasureOrder>& orders) {
  const MeasureOrder& order = order_by(orders, "cost_per_kg");
  std::string costs;
  for (const std::size_t bay : order.order) {
    const Measured cost = value_of(all.bays[bay], "cost_per_kg");
    if (cost.best) {
      const std::string one = plain_say(
          "compare.in", in_units("cost_per_kg", *cost.best, all.units), all.bays[bay].name);
      costs = costs.empty() ? one : plain_say("compare.comma", costs, one);
    }
  }
  return costs.empty() ? "" : plain_say("compare.costs", costs);
}

std::string measure_sentence(const Comparison& all, const MeasureOrder& order) {
  const std::vector<ToMeasure> found = to_measure(all, order);
  if (order.pairs.empty()) {
    return "";
  }
  if (found.empty()) {
    return label("compare.no_layer");
  }
  const ToMeasure& first = found.front();
  return plain_say("compare.measure", translated(first.input), all.bays[first.bay].name,
                   percent(first.share),
                   first.judged ? label("compare.judged")
                                : plain_say("compare.its_error", translated(first.basis)));
}

}  // namespace

std::string site_count(std::size_t sites) {
  return sites == 1 ? label("compare.one_site") : plain_say("compare.sites", sites);
}

const std::string& measure_title(std::string_view key) {
  return label(fmt::format("measure.{}", key));
}

Measure measure_words(std::string_view key, double value) {
  return std::find_if(kPrints.begin(), kPrints.end(),
                      [&](const MeasurePrint& one) { return one.key == key; })
      ->print(value);
}

const std::string& no_value(const Bay& bay) {
  return label(bay.sites.empty() ? "compare.no_site" : "compare.not_given");
}

std::string range_words(std::string_view key, const Measured& value, Units units) {
  const auto words = [&](double v) {
    const Measure both = measure_words(key, v);
    return units == Units::us ? both.us : both.metric;
  };
  if (!value.p10 && !value.p90) {
    return "";
  }
  if (!value.p90) {
    return plain_say("compare.upward", words(*value.p10));
  }
  if (!value.p10) {
    return plain_say("compare.up_to", words(*value.p90));
  }
  const std::string low = words(*value.p10), high = words(*value.p90);
  const std::size_t unit = low.find(' ');
  const bool same = unit != std::string::npos && high.ends_with(low.substr(unit));
  return plain_say("words.to_2", same ? low.substr(0, unit) : low, high);
}

std::string chance_words(double share) {
  return share > 0.995 && share < 1.0   ? label("compare.more_than_99")
         : share > 0.0 && share < 0.005 ? label("words.less_than_1")
                                        : plain_say("words.percent", fixed(100.0 * share, 0));
}

std::string names_of(const Comparison& all) {
  std::string out;
  for (std::size_t i = 0; i < all.bays.size(); ++i) {
    const std::string& name = all.bays[i].name;
    out = i == 0 ? name
                 : plain_say(i + 1 == all.bays.size() ? "compare.and" : "compare.comma", out, name);
  }
  return out;
}

std::vector<std::string> compare_sentences(const Comparison& all) {
  const std::vector<MeasureOrder> orders = orders_of(all);
  const MeasureOrder& order = order_by(orders, kOrderMeasure);
  std::vector<std::string> out;
  for (const FailedBay& failed : all.failed) {
    out.push_back(plain_say("compare.not_in_it", failed.plan, failed.why));
  }
  if (all.crops) {
    out.push_back(plain_say("crops.first_sheet_is_of", all.crops->first, all.crops->second));
  }
  out.push_back(first_sentence(all, order));
  if (bay_at(all, order, 0).bay.sites.empty()) {
    return out;
  }
  for (std::size_t place = 0; place + 1 < order.order.size(); ++place) {
    out.push_back(step_sentence(all, order, place));
  }
  for (std::string more : {cost_sentence(all, orders), measure_sentence(all, order)}) {
    if (!more.empty()) {
      out.push_back(std::move(more));
    }
  }
  return out;
}

std::vector<std::string> difference_sentences(const Comparison& all) {
  std::vector<std::string> out;
  for (const KeyDifference& one : all.differences) {
    std::string values;
    for (std::size_t i = 0; i < one.values.size(); ++i) {
      const std::string value =
          one.values[i].empty() ? label("compare.not_there") : plain_value(one.values[i]);
      const std::string phrase = plain_say("compare.in", value, all.names[i]);
      values = i == 0 ? phrase : plain_say("compare.comma", values, phrase);
    }
    out.push_back(plain_say("compare.named", one.key, values));
  }
  return out;
}

std::vector<std::string> crop_sentences(const Comparison& all) {
  const auto kg = [&](const Measured& nitrogen) {
    return nitrogen.best ? in_units(kOrderMeasure, *nitrogen.best, all.units)
                         : label("crops.nothing_alone");
  };
  const MeasureOrder order = order_in_turn(all);
  const ComparedBay& most = bay_at(all, order, 0);
  const Measured in_turn = nitrogen_in_turn(most.crops->turn);
  const std::string range = range_words(kOrderMeasure, in_turn, all.units);
  std::vector<std::string> out{
      in_turn.best ? plain_say("crops.most_in_turn", all.crops->first, all.crops->second, most.name,
                               kg(in_turn), range.empty() ? "" : plain_say("compare.range", range))
                   : plain_say("crops.none_in_turn", all.crops->first, all.crops->second)};
  if (!order.places.empty()) {
    const auto first = std::ranges::max_element(
        order.places, {}, [](const std::vector<double>& places) { return places[0]; });
    const auto bay = static_cast<std::size_t>(first - order.places.begin());
    out.push_back(plain_say("crops.members_say", chance_words((*first)[0]), all.bays[bay].name));
  }
  for (const std::size_t bay : order.order) {
    const ComparedBay& one = all.bays[bay];
    const CropsInTurn& turn = one.crops->turn;
    if (!turn.cannot.empty()) {
      out.push_back(plain_say("crops.each_cannot", one.name, translated(turn.cannot)));
      continue;
    }
    out.push_back(plain_say(
        "crops.each", one.name, kg(nitrogen_in_turn(turn)), kg(nitrogen_of(crop_yield_of(one.bay))),
        all.crops->first, kg(nitrogen_of(one.crops->second)), all.crops->second,
        turn.cut ? plain_say("crops.cut", date(turn.first_from), date(turn.second_from))
                 : label("crops.as_they_come")));
  }
  return out;
}

std::vector<std::string> assumed_sentences(const Comparison& all) {
  std::vector<std::pair<std::string, std::string>> grouped;  // the sentence but for its bays
  const auto value = [](const std::string& json) {
    return json.empty() ? label("crops.none") : plain_value(json);
  };
  for (const ComparedBay& one : all.bays) {
    for (const auto& [crop, keys] :
         {std::pair(&all.crops->first, &one.crops->assumed_of_first),
          std::pair(&all.crops->second, &one.crops->assumed_of_second)}) {
      std::vector<std::string> own;
      for (const AssumedKey& key : *keys) {
        own.push_back(plain_say("crops.assumed_key", *crop, key.key, value(key.assumed),
                                value(key.planned), translated(key.why), "\n"));
      }
      if (own.empty()) {
        own.push_back(plain_say("crops.own_keys", *crop, "\n"));
      }
      for (std::string& each : own) {
        const auto same =
            std::ranges::find(grouped, each, &std::pair<std::string, std::string>::first);
        if (same == grouped.end()) {
          grouped.emplace_back(std::move(each), one.name);
        } else {
          same->second = plain_say("compare.comma", same->second, one.name);
        }
      }
    }
  }
  std::vector<std::string> out;
  for (const auto& [sentence, bays] : grouped) {
    const std::size_t at = sentence.find('\n');
    out.push_back(sentence.substr(0, at) + bays + sentence.substr(at + 1));
  }
  return out;
}

std::vector<std::string> compare_notes(const Comparison& all) {
  return {label("compare.note_own_run"),
          paired(all)
              ? plain_say("compare.note_chances", all.bays[0].bay.draws, percent(kToldApart))
              : label("compare.note_no_chances"),
          label("compare.note_ranges"), label("compare.note_sea"), published_removal()};
}

std::string target_words(const TargetFinding& target, double target_kg, Units units) {
  const std::string wanted = in_line(nitrogen(target_kg), units);
  if (!target.best) {
    const std::string most = in_line(nitrogen(target.most_kg), units);
    return target.sites_found == 1
               ? plain_say(target.all_found ? "compare.cannot_one_no_more" : "compare.cannot_one",
                           most, wanted)
               : plain_say(target.all_found ? "compare.cannot_no_more" : "compare.cannot",
                           site_count(target.sites_found), most, wanted);
  }
  const TargetNeed& need = *target.best;
  const std::string best = plain_say("compare.need", in_line(length(need.line_m, 0), units),
                                     site_count(static_cast<std::size_t>(need.sites)),
                                     in_line(area(need.lease_ha), units));
  return target.nine_in_ten
             ? plain_say("compare.need_nine_in_ten", best,
                         site_count(static_cast<std::size_t>(target.nine_in_ten->sites)))
             : plain_say("compare.need_not_nine_in_ten", best);
}

}  // namespace page
}  // namespace tidelot
