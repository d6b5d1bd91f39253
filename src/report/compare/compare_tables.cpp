// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>

#include "report/compare/compare_parts.hpp"
#include "report/compare/compare_words.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr std::size_t kMostBaysInPairs = 6;

const CompareMeasure& measure_of(std::string_view key) {
  const auto all = compare_measures();
  return *std::find_if(all.begin(), all.end(), [&](const auto& m) { return m.key == key; });
}

/// Is nothing uncertain about the figure in any bay that has it?
bool is_certain(const Comparison& all, std::string_view key) {
  bool some = false;
  for (const ComparedBay& one : all.bays) {
    const Measured value = measure_of(key).of(one.bay);
    if (value.best && !value.certain) {
      return false;
    }
    some = some || value.best;
  }
  return some;
}

/// A figure with its range in small print, or that it has none where the caption does not say so.
std::string cell(std::string_view key, const Bay& bay, Units units, bool caption_says) {
  const Measured value = measure_of(key).of(bay);
  if (!value.best) {
    return text(no_value(bay));
  }
  const std::string range = value.certain ? (caption_says ? "" : label("compare.not_uncertain"))
                                          : range_words(key, value, units);
  return stacked(measure_words(key, *value.best), units) +
         (range.empty() ? "" : element("small", text(range)));
}

/// "What the sites hold. Not uncertain here: Sites, Lines".
std::string with_certain(const std::string& words, const std::vector<std::string_view>& certain) {
  std::string titles;
  for (const std::string_view key : certain) {
    titles = titles.empty() ? measure_title(key)
                            : plain_say("compare.comma", titles, measure_title(key));
  }
  return titles.empty() ? words : plain_say("compare.caption_not_uncertain", words, titles);
}

/// One table: a row an estuary, a column a measure.
Table measures(const Comparison& all, const std::string& words,
               std::initializer_list<std::string_view> keys) {
  std::vector<std::string_view> certain;
  std::ranges::copy_if(keys, std::back_inserter(certain),
                       [&](std::string_view key) { return is_certain(all, key); });
  Table table{caption_of(with_certain(words, certain), all), {{label("compare.estuary")}}, {}, ""};
  for (const std::string_view key : keys) {
    table.columns.push_back({measure_title(key), true});
  }
  for (const ComparedBay& one : all.bays) {
    std::vector<std::string> row{text(one.name)};
    for (const std::string_view key : keys) {
      const bool told = std::ranges::find(certain, key) != certain.end();
      row.push_back(cell(key, one.bay, all.units, told));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::string lost_words(const Bay& bay, Units units) {
  std::string all;
  for (const LostWater& one : bay.lost) {
    all += fmt::format("{}{} {}", all.empty() ? "" : "; ", translated(one.name),
                       in_line(measure_words("water_ha", one.ha), units));
  }
  return all.empty() ? label("compare.nothing") : all;
}

std::string season_words(const Bay& bay) {
  return bay.sites.empty() ? no_value(bay) : dates(bay.sites[0].outplant, bay.sites[0].last_haul);
}

Table water_table(const Comparison& all) {
  Table table =
      measures(all, label("compare.water"),
               {"water_ha", "open_ha", "open_share", "suitable_ha", "unknown_ha", "season_days"});
  table.columns.push_back({label("compare.outplant_to_last_haul")});
  table.columns.push_back({label("compare.lost_to")});
  for (std::size_t i = 0; i < all.bays.size(); ++i) {
    table.rows[i].push_back(text(season_words(all.bays[i].bay)));
    table.rows[i].push_back(text(lost_words(all.bays[i].bay, all.units)));
  }
  return table;
}

std::string best_words(const Bay& bay) {
  return bay.sites.empty()
             ? no_value(bay)
             : fmt::format("{}, {}", bay.sites[0].name, decimal_minutes(bay.sites[0].centre));
}

Table farm_table(const Comparison& all) {
  Table table =
      measures(all, label("compare.hold_and_give"),
               {"sites", "lines", "line_m", "lease_ha", "yield_all_sites_t", kOrderMeasure,
                "taken_from_each_other_share", "yield_best_site_t", "nitrogen_best_site_kg"});
  table.columns.push_back({label("compare.best_site")});
  for (std::size_t i = 0; i < all.bays.size(); ++i) {
    table.rows[i].push_back(text(best_words(all.bays[i].bay)));
  }
  return table;
}

std::string load_words(const Bay& bay) {
  if (!bay.load) {
    return label("compare.no_load");
  }
  const auto stated = [](const std::string& words) {
    return words.empty() ? label("compare.not_stated") : words;
  };
  return fmt::format(
      "{}; {}; {}; {}", stated(bay.load->kind), stated(bay.load->segment), stated(bay.load->period),
      bay.load->year ? fmt::format("{}", *bay.load->year) : label("compare.year_not_stated"));
}

Table load_table(const Comparison& all) {
  Table table =
      measures(all, label("compare.load"),
               {"load_kg_per_year", "share_of_load", "share_of_goal", "share_of_season_load",
                "residence_months", "reaches_sea_anyway_share", "nitrogen_kept_from_sea_kg"});
  table.columns.push_back({label("compare.load_kind")});
  for (std::size_t i = 0; i < all.bays.size(); ++i) {
    table.rows[i].push_back(text(load_words(all.bays[i].bay)));
  }
  return table;
}

bool any_load(const Comparison& all) {
  return std::ranges::any_of(all.bays, [](const ComparedBay& b) { return b.bay.load.has_value(); });
}

constexpr std::array<std::string_view, 6> kPairMeasures{
    kOrderMeasure,       "nitrogen_kg_per_100_m", "nitrogen_kg_per_ha_site",
    "yield_all_sites_t", "season_days",           "cost_per_kg"};

std::string pair_cell(const MeasureOrder& order, std::size_t a, std::size_t b) {
  const auto [low, high] = std::minmax(a, b);
  for (const PairChance& pair : order.pairs) {
    if (pair.a == low && pair.b == high) {
      const double chance = pair.a == a ? pair.a_better : 1.0 - pair.a_better;
      return text(chance_words(chance)) +
             (pair.tie ? element("small", say("compare.tie_short")) : "");
    }
  }
  return say("compare.not_drawn");
}

}  // namespace

std::string caption_of(std::string words, const Comparison& all) {
  if (!all.differences.empty()) {
    words = plain_say("compare.caption_not_alike", words);
  }
  return all.failed.empty() ? words : plain_say("compare.caption_partial", words);
}

std::string order_table(const Comparison& all, const std::vector<MeasureOrder>& orders) {
  const MeasureOrder& order = order_by(orders, kOrderMeasure);
  Table table{caption_of(label("compare.in_order"), all),
              {{label("compare.estuary")},
               {measure_title(kOrderMeasure), true},
               {measure_title("nitrogen_kg_per_100_m"), true},
               {measure_title("cost_per_kg"), true}},
              {},
              ""};
  for (std::size_t place = 0; !order.places.empty() && place < all.bays.size(); ++place) {
    table.columns.push_back({plain_say("compare.chance_of_place", place + 1), true});
  }
  for (std::size_t place = 0; place < order.order.size(); ++place) {
    const std::size_t bay = order.order[place];
    const ComparedBay& one = all.bays[bay];
    std::vector<std::string> row{
        text(plain_say("compare.place", place + 1, one.name)) +
        (ties_with_next(order, place) ? element("small", say("compare.tie_with_next")) : "")};
    for (const std::string_view key : {kOrderMeasure, std::string_view("nitrogen_kg_per_100_m"),
                                       std::string_view("cost_per_kg")}) {
      row.push_back(cell(key, one.bay, all.units, false));
    }
    for (std::size_t p = 0; !order.places.empty() && p < all.bays.size(); ++p) {
      row.push_back(text(chance_words(order.places[bay][p])));
    }
    table.rows.push_back(std::move(row));
  }
  return html(table);
}

std::string measure_tables(const Comparison& all) {
  const std::array tables{html(water_table(all)), html(farm_table(all)),
                          html(measures(all, label("compare.per_base"),
                                        {"yield_kg_per_100_m", "nitrogen_kg_per_100_m",
                                         "yield_t_per_ha_gear_box", "nitrogen_kg_per_ha_gear_box",
                                         "yield_t_per_ha_site", "nitrogen_kg_per_ha_site"})),
                          any_load(all) ? html(load_table(all)) : std::string(),
                          html(measures(all, label("compare.cost_and_way"),
                                        {"cost_per_kg", "landing_km", "wave_50y_m"}))};
  return lines(tables);
}

std::string pair_table(const Comparison& all, const std::vector<MeasureOrder>& orders) {
  const MeasureOrder& main = order_by(orders, kOrderMeasure);
  if (main.pairs.empty()) {
    return "";
  }
  Table table{
      caption_of(label("compare.chance_first"), all), {{label("compare.first_second")}}, {}, ""};
  for (const std::string_view key : kPairMeasures) {
    table.columns.push_back({measure_title(key), true});
  }
  const bool all_pairs = all.bays.size() <= kMostBaysInPairs;
  for (std::size_t i = 0; i < main.order.size(); ++i) {
    const std::size_t last = all_pairs ? main.order.size() : std::min(i + 2, main.order.size());
    for (std::size_t j = i + 1; j < last; ++j) {
      const std::size_t a = main.order[i], b = main.order[j];
      std::vector<std::string> row{
          text(plain_say("compare.comma", all.bays[a].name, all.bays[b].name))};
      for (const std::string_view key : kPairMeasures) {
        row.push_back(pair_cell(order_by(orders, key), a, b));
      }
      table.rows.push_back(std::move(row));
    }
  }
  return html(table) + (all_pairs ? "" : element("p", say("compare.all_pairs")));
}

std::string target_table(const Comparison& all) {
  if (!all.target_kg) {
    return "";
  }
  Table table{
      caption_of(plain_say("compare.target", in_line(nitrogen(*all.target_kg), all.units)), all),
      {{label("compare.estuary")}, {label("compare.needs")}},
      {},
      ""};
  for (const ComparedBay& one : all.bays) {
    table.rows.push_back(
        {text(one.name), text(one.target ? target_words(*one.target, *all.target_kg, all.units)
                                         : label("compare.not_found"))});
  }
  return html(table);
}

}  // namespace tidelot::page
