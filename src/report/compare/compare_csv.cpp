// SPDX-License-Identifier: Apache-2.0
// compare.csv: a row an estuary.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "report/compare/compare_words.hpp"
#include "report/tables/csv_cells.hpp"
#include "report/words/say.hpp"
#include "tidelot/report/compare.hpp"

namespace tidelot {
namespace {

using cells::number;
using Cells = std::vector<std::string>;

std::string maybe(const std::optional<double>& value, int decimals) {
  return value && std::isfinite(*value) ? number(*value, decimals) : "";
}

/// "eelgrass beds 12.3 ha (4.5 ha alone); ...".
std::string lost_cell(const Bay& bay) {
  std::vector<std::string> phrases;
  for (const LostWater& one : bay.lost) {
    phrases.push_back(
        fmt::format("{} {} ha ({} ha alone)", one.name, number(one.ha, 1), number(one.only_ha, 1)));
  }
  return cells::text(cells::joined(phrases));
}

void add_heads(Cells& row) {
  for (const char* head : {"estuary", "comparison", "measured_alike", "failed", "rank",
                           "chance_first", "ties_with_next", "title", "crop"}) {
    row.emplace_back(head);
  }
  for (const CompareMeasure& measure : compare_measures()) {
    row.emplace_back(measure.key);
    row.push_back(fmt::format("{}_p10", measure.key));
    row.push_back(fmt::format("{}_p90", measure.key));
  }
  for (const char* head :
       {"lost_to", "best_site", "best_site_lon", "best_site_lat", "outplant", "last_haul",
        "best_site_line_m", "best_site_lines", "load_kind", "load_segment", "load_period",
        "load_year", "held_back_by", "target_kg", "target_sites", "target_line_m",
        "target_lease_ha", "target_sites_nine_in_ten", "target_most_kg"}) {
    row.emplace_back(head);
  }
  for (const char* crop : {"first_crop", "second_crop", "in_turn_first", "in_turn_second"}) {
    for (const char* what :
         {"", "_outplant", "_last_haul", "_months", "_nitrogen_kg", "_yield_t"}) {
      row.push_back(fmt::format("{}{}", crop, what));
      if (std::string_view(what).ends_with("kg") || std::string_view(what).ends_with("_t")) {
        row.push_back(fmt::format("{}{}_p10", crop, what));
        row.push_back(fmt::format("{}{}_p90", crop, what));
      }
    }
  }
  for (const char* head :
       {"in_turn", "in_turn_first_from", "in_turn_second_from", "in_turn_nitrogen_kg",
        "in_turn_nitrogen_kg_p10", "in_turn_nitrogen_kg_p90", "in_turn_yield_t",
        "in_turn_yield_t_p10", "in_turn_yield_t_p90", "in_turn_share_of_load", "in_turn_rank",
        "in_turn_chance_first", "crops_assumed"}) {
    row.emplace_back(head);
  }
}

void add_measures(const Bay& bay, Cells& row) {
  const std::string not_uncertain = cells::text(page::label("compare.not_uncertain"));
  for (const CompareMeasure& measure : compare_measures()) {
    const Measured value = measure.of(bay);
    row.push_back(maybe(value.best, measure.decimals));
    const bool certain = value.certain && value.best;
    row.push_back(certain ? not_uncertain : maybe(value.p10, measure.decimals));
    row.push_back(certain ? not_uncertain : maybe(value.p90, measure.decimals));
  }
}

void add_best(const Bay& bay, Cells& row) {
  if (bay.sites.empty()) {
    row.resize(row.size() + 7);
    return;
  }
  const BaySite& best = bay.sites[0];
  row.insert(row.end(),
             {cells::text(best.name), number(best.centre.lon, 6), number(best.centre.lat, 6),
              cells::day(best.outplant), cells::day(best.last_haul), number(best.account.line_m, 1),
              fmt::format("{}", best.lines)});
}

void add_load(const Bay& bay, Cells& row) {
  if (!bay.load) {
    row.resize(row.size() + 4);
    return;
  }
  for (const std::string& words : {bay.load->kind, bay.load->segment, bay.load->period}) {
    row.push_back(cells::text(words));
  }
  row.push_back(bay.load->year ? fmt::format("{}", *bay.load->year) : "");
}

void add_target(const Comparison& all, const ComparedBay& one, Cells& row) {
  if (!all.target_kg || !one.target) {
    row.resize(row.size() + 6);
    return;
  }
  const auto& best = one.target->best;
  row.push_back(number(*all.target_kg, 1));
  row.push_back(best ? fmt::format("{}", best->sites) : "");
  row.push_back(best ? number(best->line_m, 1) : "");
  row.push_back(best ? number(best->lease_ha, 4) : "");
  row.push_back(one.target->nine_in_ten ? fmt::format("{}", one.target->nine_in_ten->sites) : "");
  row.push_back(number(one.target->most_kg, 3));
}

void add_spread(const Measured& value, int decimals, Cells& row) {
  row.push_back(maybe(value.best, decimals));
  row.push_back(maybe(value.p10, decimals));
  row.push_back(maybe(value.p90, decimals));
}

/// "5;6;7": the months that the crop is in the water.
std::string months_cell(const CropYield& crop) {
  return crop.outplant > 0 ? fmt::format("{}", fmt::join(months_of(crop), ";")) : "";
}

constexpr std::size_t kCropCells = 10;

void add_crop(const CropYield& crop, Cells& row) {
  row.push_back(cells::text(crop.crop));
  row.push_back(crop.outplant > 0 ? cells::day(crop.outplant) : "");
  row.push_back(crop.outplant > 0 ? cells::day(crop.last_haul) : "");
  row.push_back(months_cell(crop));
  add_spread(nitrogen_of(crop), 3, row);
  add_spread(yield_of(crop), 4, row);
}

std::string assumed_cell(const TwoCrops& crops, const CropPair& names) {
  std::vector<std::string> phrases;
  for (const auto& [name, keys] : {std::pair(&names.first, &crops.assumed_of_first),
                                   std::pair(&names.second, &crops.assumed_of_second)}) {
    for (const AssumedKey& key : *keys) {
      phrases.push_back(
          fmt::format("{} {} = {}", *name, key.key, key.assumed.empty() ? "none" : key.assumed));
    }
  }
  return cells::text(cells::joined(phrases));
}

/// Of two crops; empty without them.
void add_crops(const Comparison& all, std::size_t bay, Cells& row) {
  constexpr std::size_t kLast = 13;
  const ComparedBay& one = all.bays[bay];
  if (!all.crops || !one.crops) {
    row.resize(row.size() + 4 * kCropCells + kLast);
    return;
  }
  const CropsInTurn& turn = one.crops->turn;
  add_crop(crop_yield_of(one.bay), row);
  add_crop(one.crops->second, row);
  add_crop(turn.first, row);
  add_crop(turn.second, row);
  const bool can = turn.cannot.empty();
  row.push_back(cells::text(!can ? "cannot: " + turn.cannot : turn.cut ? "cut" : "as they come"));
  row.push_back(can ? cells::day(turn.first_from) : "");
  row.push_back(can ? cells::day(turn.second_from) : "");
  const Measured nitrogen = nitrogen_in_turn(turn);
  add_spread(nitrogen, 3, row);
  add_spread(yield_in_turn(turn), 4, row);
  row.push_back(nitrogen.best && one.bay.load
                    ? number(shares_of(*nitrogen.best, 0, *one.bay.load).of_load, 7)
                    : "");
  const MeasureOrder order = order_in_turn(all);
  const auto place = std::find(order.order.begin(), order.order.end(), bay) - order.order.begin();
  row.push_back(can ? fmt::format("{}", place + 1) : "");
  row.push_back(order.places.empty() ? "" : number(order.places[bay][0], 3));
  row.push_back(assumed_cell(*one.crops, *all.crops));
}

struct InOrder {
  std::string rank, chance_first, ties;
};
InOrder standing_of(const std::vector<MeasureOrder>& orders, std::size_t bay) {
  const MeasureOrder& order = order_by(orders, kOrderMeasure);
  const auto place = static_cast<std::size_t>(
      std::find(order.order.begin(), order.order.end(), bay) - order.order.begin());
  InOrder out{fmt::format("{}", place + 1), "", ""};
  if (!order.places.empty()) {
    out.chance_first = number(order.places[bay][0], 3);
    out.ties = ties_with_next(order, place) ? "yes" : "no";
  }
  return out;
}

}  // namespace

std::string compare_csv(const Comparison& all) {
  Cells heads;
  add_heads(heads);
  std::string text = fmt::format("{}\n", fmt::join(heads, ","));
  const std::string state = cells::text(state_words(all));
  const std::string alike = all.differences.empty() ? "yes" : "no";
  const std::vector<MeasureOrder> orders = orders_of(all);
  for (std::size_t i = 0; i < all.bays.size(); ++i) {
    const ComparedBay& one = all.bays[i];
    const InOrder standing = standing_of(orders, i);
    Cells row{cells::text(one.name),
              state,
              alike,
              "",
              standing.rank,
              standing.chance_first,
              standing.ties,
              cells::text(one.bay.title),
              cells::text(one.bay.crop)};
    add_measures(one.bay, row);
    row.push_back(lost_cell(one.bay));
    add_best(one.bay, row);
    add_load(one.bay, row);
    row.push_back(cells::text(one.bay.held_back_by));
    add_target(all, one, row);
    add_crops(all, i, row);
    text += fmt::format("{}\n", fmt::join(row, ","));
  }
  for (const FailedBay& failed : all.failed) {
    Cells row{cells::text(failed.plan), state, alike, cells::text(failed.why)};
    row.resize(heads.size());
    text += fmt::format("{}\n", fmt::join(row, ","));
  }
  return text;
}

}  // namespace tidelot
