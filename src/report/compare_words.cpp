// SPDX-License-Identifier: Apache-2.0
#include "report/compare_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/parts.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/units.hpp"

namespace tidelot {

const MeasureOrder& order_by(const std::vector<MeasureOrder>& orders, std::string_view key) {
  return *std::find_if(orders.begin(), orders.end(), [&](const MeasureOrder& order) {
    return compare_measures()[order.measure].key == key;
  });
}

std::string state_words(const Comparison& all) {
  return all.failed.empty() ? "complete"
                            : fmt::format("partial: {} of {} plans failed", all.failed.size(),
                                          all.failed.size() + all.bays.size());
}

namespace page {
namespace {

Measure plain(std::string words) { return {words, words}; }

Measure number(double value) { return plain(fixed(value, 0)); }
Measure days(double value) { return plain(fixed(value, 0) + " days"); }
Measure months(double value) {
  return plain(fmt::format("{} month{}", shortest(value), value == 1.0 ? "" : "s"));
}
/// Shares of a load are small: three figures of a percentage.
Measure share(double value) {
  const double percentage = 100.0 * value;
  if (percentage == 0.0) {
    return plain("0 %");
  }
  const double size = std::abs(percentage);
  return plain(fixed(percentage, size < 0.995 ? 3 : size < 9.95 ? 2 : 1) + " %");
}
Measure money(double value) { return plain(fixed(value, value < 99.5 ? 1 : 0) + " per kg"); }
Measure way(double km) { return distance(1000.0 * km); }
Measure wave(double m) { return length(m, 1); }
/// None at all is 0 ha, not 0.000.
Measure hectares(double ha) { return ha == 0.0 ? Measure{"0 ha", "0 acres"} : area(ha); }
Measure line(double m) { return length(m, 0); }
/// Fresh weight of 100 m of line in kg.
Measure crop_per_100_m(double kg) {
  const double lb_per_100_ft = kg * kFootM / kPoundKg;
  return {fixed(kg, 0) + " kg", fixed(lb_per_100_ft, 0) + " lb per 100 ft"};
}

struct MeasureName {
  std::string_view key, title;
  Measure (*print)(double);
};
constexpr std::array<MeasureName, 30> kNames{{
    {"water_ha", "Water", hectares},
    {"open_ha", "Open water", hectares},
    {"open_share", "Open share", share},
    {"unknown_ha", "Not known", hectares},
    {"season_days", "Season at the best site", days},
    {"sites", "Sites", number},
    {"lines", "Lines", number},
    {"line_m", "Longline", line},
    {"lease_ha", "Area of the sites", area},
    {"yield_best_site_t", "Yield, best site", crop},
    {"nitrogen_best_site_kg", "Nitrogen, best site", nitrogen},
    {"yield_all_sites_t", "Yield, all sites", crop},
    {kOrderMeasure, "Nitrogen, all sites", nitrogen},
    {"taken_from_each_other_share", "Taken from each other", share},
    {"yield_kg_per_100_m", "Yield per 100 m", crop_per_100_m},
    {"nitrogen_kg_per_100_m", "Nitrogen per 100 m", nitrogen_per_100_m},
    {"yield_t_per_ha_gear_box", "Yield, gear box", crop_per_ha},
    {"nitrogen_kg_per_ha_gear_box", "Nitrogen, gear box", nitrogen_per_ha},
    {"yield_t_per_ha_site", "Yield, site", crop_per_ha},
    {"nitrogen_kg_per_ha_site", "Nitrogen, site", nitrogen_per_ha},
    {"load_kg_per_year", "Load a year", nitrogen},
    {"share_of_load", "Share of the load", share},
    {"share_of_goal", "Share of the goal", share},
    {"share_of_season_load", "Share of the season's load", share},
    {"residence_months", "Water stays", months},
    {"reaches_sea_anyway_share", "Reaches the sea anyway", share},
    {"nitrogen_kept_from_sea_kg", "Kept from the sea", nitrogen},
    {"cost_per_kg", "Cost of nitrogen", money},
    {"landing_km", "Landing to best site", way},
    {"wave_50y_m", "Waves, once in 50 years", wave},
}};

const MeasureName& name_of(std::string_view key) {
  return *std::find_if(kNames.begin(), kNames.end(),
                       [&](const MeasureName& name) { return name.key == key; });
}

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
    return "No estuary has a site: there is nothing to put in order.";
  }
  const std::string range = range_words(kOrderMeasure, value, all.units);
  return fmt::format("{} would carry off most nitrogen: {} a year from {} site{}{}.", first.name,
                     in_units(kOrderMeasure, *value.best, all.units), first.bay.sites.size(),
                     first.bay.sites.size() == 1 ? "" : "s",
                     range.empty() ? "" : fmt::format(" (P10 to P90: {})", range));
}

const PairChance* pair_of(const MeasureOrder& order, std::size_t a, std::size_t b) {
  const auto found = std::find_if(order.pairs.begin(), order.pairs.end(), [&](const auto& pair) {
    return pair.a == std::min(a, b) && pair.b == std::max(a, b);
  });
  return found == order.pairs.end() ? nullptr : &*found;
}

/// How sure each step of the order is.
std::vector<std::string> step_sentences(const Comparison& all, const MeasureOrder& order) {
  std::vector<std::string> out;
  for (std::size_t place = 0; place + 1 < order.order.size(); ++place) {
    const std::size_t a = order.order[place], b = order.order[place + 1];
    const Measured next = value_of(all.bays[b], kOrderMeasure);
    if (!next.best) {
      out.push_back(fmt::format(
          "{} has no site: {}.", all.bays[b].name,
          all.bays[b].bay.held_back_by.empty() ? "nothing fits" : all.bays[b].bay.held_back_by));
      continue;
    }
    const PairChance* pair = pair_of(order, a, b);
    if (pair == nullptr) {
      out.push_back(fmt::format("{} follows with {}; how sure that order is was not computed.",
                                all.bays[b].name, in_units(kOrderMeasure, *next.best, all.units)));
      continue;
    }
    const double chance = pair->a == a ? pair->a_better : 1.0 - pair->a_better;
    out.push_back(
        pair->tie
            ? fmt::format(
                  "{} and {} are a tie: {} gives more in {} of the members, fewer than the "
                  "{} that tell two apart ({} against {}).",
                  all.bays[a].name, all.bays[b].name, all.bays[a].name, chance_words(chance),
                  percent(kToldApart),
                  in_units(kOrderMeasure, *value_of(all.bays[a], kOrderMeasure).best, all.units),
                  in_units(kOrderMeasure, *next.best, all.units))
            : fmt::format("{} gives more than {} ({}) in {} of the members.", all.bays[a].name,
                          all.bays[b].name, in_units(kOrderMeasure, *next.best, all.units),
                          chance_words(chance)));
  }
  return out;
}

std::string cost_sentence(const Comparison& all, const std::vector<MeasureOrder>& orders) {
  const MeasureOrder& order = order_by(orders, "cost_per_kg");
  std::vector<std::string> phrases;
  for (const std::size_t bay : order.order) {
    const Measured cost = value_of(all.bays[bay], "cost_per_kg");
    if (cost.best) {
      phrases.push_back(fmt::format("{} in {}", in_units("cost_per_kg", *cost.best, all.units),
                                    all.bays[bay].name));
    }
  }
  return phrases.empty() ? ""
                         : fmt::format("Nitrogen would cost {}, in the plans' own currency.",
                                       fmt::join(phrases, ", "));
}

std::string measure_sentence(const Comparison& all, const MeasureOrder& order) {
  const std::vector<ToMeasure> found = to_measure(all, order);
  if (order.pairs.empty()) {
    return "";
  }
  if (found.empty()) {
    return "No one layer stands out in what separates the first two: measuring one thing more "
           "would not settle their order.";
  }
  const ToMeasure& first = found.front();
  return fmt::format(
      "What would most change the order of the first two: {} in {} ({} of the variance of their "
      "difference; {}).",
      first.input, all.bays[first.bay].name, percent(first.share),
      first.judged ? "nobody measured how far it is off: a judgement stands in"
                   : "its error: " + first.basis);
}

}  // namespace

std::string_view measure_title(std::string_view key) { return name_of(key).title; }

Measure measure_words(std::string_view key, double value) { return name_of(key).print(value); }

std::string no_value(const Bay& bay) { return bay.sites.empty() ? "no site" : "not given"; }

std::string range_words(std::string_view key, const Measured& value, Units units) {
  if (!value.p10 && !value.p90) {
    return "";
  }
  const auto words = [&](double v) {
    const Measure both = measure_words(key, v);
    return units == Units::us ? both.us : both.metric;
  };
  if (!value.p90) {
    return words(*value.p10) + " upward";
  }
  if (!value.p10) {
    return "up to " + words(*value.p90);
  }
  const std::string low = words(*value.p10), high = words(*value.p90);
  const std::size_t unit = low.find(' ');
  const bool same = unit != std::string::npos && high.ends_with(low.substr(unit));
  return fmt::format("{} to {}", same ? low.substr(0, unit) : low, high);
}

std::string chance_words(double share) {
  return share > 0.995 && share < 1.0   ? "more than 99 %"
         : share > 0.0 && share < 0.005 ? "less than 1 %"
                                        : fixed(100.0 * share, 0) + " %";
}

std::vector<std::string> compare_sentences(const Comparison& all) {
  const std::vector<MeasureOrder> orders = orders_of(all);
  const MeasureOrder& order = order_by(orders, kOrderMeasure);
  std::vector<std::string> out;
  for (const FailedBay& failed : all.failed) {
    out.push_back(fmt::format("Partial: {} is not in the comparison. {}", failed.plan, failed.why));
  }
  out.push_back(first_sentence(all, order));
  if (bay_at(all, order, 0).bay.sites.empty()) {
    return out;
  }
  for (std::string& step : step_sentences(all, order)) {
    out.push_back(std::move(step));
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
    std::vector<std::string> phrases;
    for (std::size_t i = 0; i < one.values.size(); ++i) {
      phrases.push_back(
          fmt::format("{} in {}", one.values[i].empty() ? "not there" : plain_value(one.values[i]),
                      all.names[i]));
    }
    out.push_back(fmt::format("{}: {}", one.key, fmt::join(phrases, ", ")));
  }
  return out;
}

std::vector<std::string> compare_notes(const Comparison& all) {
  std::vector<std::string> out;
  out.emplace_back(
      "Every figure is that of the estuary's own run. All sites: as they are farmed at once, in "
      "each other's water. Net of what was stocked; one season a year; estimates, not a credit.");
  if (paired(all)) {
    out.push_back(fmt::format(
        "Chances are shares of {} paired members: in each, the crop's constants are the same in "
        "every estuary, while the errors of an estuary's layers are its own. Two are told apart "
        "from {} on (judgement); below they are a tie.",
        all.bays[0].bay.draws, percent(kToldApart)));
  } else {
    out.emplace_back(
        "No chances: the members of the plans are not drawn alike ([uncertainty] draws and seed "
        "must be the same, and draws above 0).");
  }
  out.emplace_back(
      "Small numbers under a figure are P10 to P90: one member in ten lies below, one above. Where "
      "there are none, members do not say (areas, distances, waves).");
  out.emplace_back(
      "Reaches the sea anyway: part of a load that passes through without any crop, 1/(1 + 0.30 T) "
      "with T the months that water stays (rate: Dettmann 2001, 10.2307/1353250, Nielsen et al. "
      "1995, 10.3354/meps119275, read in abstract; formula from memory). Kept from the sea: the "
      "same part of the crop's nitrogen; the rest the estuary would have lost by itself.");
  out.push_back(published_removal());
  return out;
}

std::string target_words(const TargetFinding& target, double target_kg, Units units) {
  const std::string wanted = in_line(nitrogen(target_kg), units);
  if (!target.best) {
    return fmt::format("cannot: {} {} site{} give{} {} a year, less than {}",
                       target.all_found ? "no more sites fit, and the" : "the", target.sites_found,
                       target.sites_found == 1 ? "" : "s", target.sites_found == 1 ? "s" : "",
                       in_line(nitrogen(target.most_kg), units), wanted);
  }
  const TargetNeed& need = *target.best;
  const std::string sure =
      target.nine_in_ten
          ? fmt::format("; for nine members in ten {} sites", target.nine_in_ten->sites)
          : "; nine members in ten do not reach it with the sites found";
  return fmt::format("{} of longline on {} site{}, {}{}", in_line(length(need.line_m, 0), units),
                     need.sites, need.sites == 1 ? "" : "s", in_line(area(need.lease_ha), units),
                     sure);
}

}  // namespace page
}  // namespace tidelot
