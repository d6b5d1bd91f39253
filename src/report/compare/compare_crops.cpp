// SPDX-License-Identifier: Apache-2.0
// The sheet of two crops a year: each alone, and in turn on the same lines.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/compare/compare_parts.hpp"
#include "report/compare/compare_words.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"

namespace tidelot::page {
namespace {

constexpr double kMonthPx = 17.0;
constexpr int kStripPx = static_cast<int>(12 * kMonthPx) + 2;

std::string figure(std::string_view key, const Measured& value, Units units) {
  if (!value.best) {
    return say("compare.no_site");
  }
  const std::string range = range_words(key, value, units);
  return stacked(measure_words(key, *value.best), units) +
         (range.empty() ? "" : element("small", text(range)));
}

// --- months -------------------------------------------------------------------------------------

double day_px(int day) { return 1.0 + 12.0 * kMonthPx * (day - 1) / kDaysPerYear; }

/// A bar from one day to another; the second crop's is striped, so that a copy without colour tells
/// the two apart.
std::string bar(int first, int last, bool second) {
  const double left = day_px(first), right = day_px(last + 1);
  std::string out = fmt::format(
      "<rect x=\"{:.1f}\" y=\"2\" width=\"{:.1f}\" height=\"9\" fill=\"{}\" "
      "stroke=\"#1d242b\"/>",
      left, std::max(1.0, right - left), second ? "#fff" : "#12607f");
  for (double x = left + 3.0; second && x < right - 0.5; x += 4.0) {
    out += fmt::format("<path d=\"M{:.1f} 2v9\" stroke=\"#1d242b\"/>", x);
  }
  return out;
}

/// Over the new year in two bars.
std::string bars(const CropYield& crop, bool second) {
  if (crop.outplant <= 0) {
    return "";
  }
  return crop.last_haul >= crop.outplant
             ? bar(crop.outplant, crop.last_haul, second)
             : bar(crop.outplant, kDaysPerYear, second) + bar(1, crop.last_haul, second);
}

/// The first letter of a month's short name.
std::string initial(int month) {
  const std::string name = short_month(month);
  std::size_t end = 1;
  while (end < name.size() && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U) {
    ++end;
  }
  return name.substr(0, end);
}

std::string strip(const std::string& words, const std::string& all_bars) {
  std::string months;
  for (int month = 0; month < kMonths; ++month) {
    months += fmt::format(
        "<path d=\"M{0:.1f} 12v3\" stroke=\"#8a939b\"/>"
        "<text x=\"{1:.1f}\" y=\"22\">{2}</text>",
        1.0 + month * kMonthPx, 1.0 + (month + 0.5) * kMonthPx, text(initial(month)));
  }
  return fmt::format(
      "<svg class=\"months\" role=\"img\" aria-label=\"{}\" width=\"{}\" height=\"24\" "
      "viewBox=\"0 0 {} 24\"><path d=\"M1 6.5h{:.0f}\" stroke=\"#8a939b\"/>{}{}</svg>",
      text(words), kStripPx, kStripPx, 12 * kMonthPx, all_bars, months);
}

std::string season_of(const CropYield& crop) {
  return plain_say("crops.of_it", crop.crop, dates(crop.outplant, crop.last_haul));
}

std::string one_strip(const CropYield& crop, bool second) {
  return strip(season_of(crop), bars(crop, second)) +
         element("small", text(dates(crop.outplant, crop.last_haul)));
}

/// "warm-red-alga: 14 May to 21 October, 18.2 kg".
std::string part_of(const CropYield& crop, Units units) {
  return plain_say("crops.of_turn", crop.crop, dates(crop.outplant, crop.last_haul),
                   in_line(measure_words(kOrderMeasure, crop.nitrogen_kg), units));
}

std::string turn_strip(const CropsInTurn& turn, Units units) {
  return strip(plain_say("compare.comma", season_of(turn.first), season_of(turn.second)),
               bars(turn.first, false) + bars(turn.second, true)) +
         element("small", text(part_of(turn.first, units))) +
         element("small", text(part_of(turn.second, units)));
}

// --- tables -------------------------------------------------------------------------------------

std::string load_cell(const Bay& bay, const Measured& nitrogen) {
  if (!bay.load || !nitrogen.best) {
    return say("compare.not_given");
  }
  Measured share;
  const auto of = [&](const std::optional<double>& kg) {
    return kg ? std::optional(shares_of(*kg, 0, *bay.load).of_load) : std::nullopt;
  };
  share = {of(nitrogen.best), of(nitrogen.p10), of(nitrogen.p90), {}, false};
  return figure("share_of_load", share, Units::metric);
}

std::vector<std::string> crop_row(const ComparedBay& one, const CropYield& crop, bool second,
                                  Units units) {
  return {text(plain_say("compare.comma", one.name, crop.crop)),
          figure(kOrderMeasure, nitrogen_of(crop), units),
          figure("yield_all_sites_t", yield_of(crop), units), load_cell(one.bay, nitrogen_of(crop)),
          one_strip(crop, second)};
}

std::vector<std::string> turn_row(const ComparedBay& one, Units units) {
  const CropsInTurn& turn = one.crops->turn;
  const std::string head = text(plain_say("compare.comma", one.name, label("crops.in_turn")));
  if (!turn.cannot.empty()) {
    return {head, say("crops.cannot", text(translated(turn.cannot))), "", "", ""};
  }
  return {head, figure(kOrderMeasure, nitrogen_in_turn(turn), units),
          figure("yield_all_sites_t", yield_in_turn(turn), units),
          load_cell(one.bay, nitrogen_in_turn(turn)), turn_strip(turn, units)};
}

std::string yields_table(const Comparison& all) {
  Table table{caption_of(label("crops.what_each_gives"), all),
              {{label("compare.estuary")},
               {label("crops.nitrogen"), true},
               {label("crops.yield"), true},
               {label("crops.share_of_load"), true},
               {label("crops.months")}},
              {},
              ""};
  for (const ComparedBay& one : all.bays) {
    table.rows.push_back(crop_row(one, crop_yield_of(one.bay), false, all.units));
    table.rows.push_back(crop_row(one, one.crops->second, true, all.units));
    table.rows.push_back(turn_row(one, all.units));
  }
  return html(table);
}

std::string turn_order_table(const Comparison& all) {
  const MeasureOrder order = order_in_turn(all);
  Table table{caption_of(label("crops.in_order"), all),
              {{label("compare.estuary")}, {label("crops.nitrogen_in_turn"), true}},
              {},
              ""};
  for (std::size_t place = 0; !order.places.empty() && place < all.bays.size(); ++place) {
    table.columns.push_back({plain_say("compare.chance_of_place", place + 1), true});
  }
  for (std::size_t place = 0; place < order.order.size(); ++place) {
    const std::size_t bay = order.order[place];
    const Measured nitrogen = nitrogen_in_turn(all.bays[bay].crops->turn);
    std::vector<std::string> row{
        text(plain_say("compare.place", place + 1, all.bays[bay].name)) +
            (ties_with_next(order, place) ? element("small", say("compare.tie_with_next")) : ""),
        nitrogen.best ? figure(kOrderMeasure, nitrogen, all.units)
                      : say("crops.cannot", text(translated(all.bays[bay].crops->turn.cannot)))};
    for (std::size_t p = 0; !order.places.empty() && p < all.bays.size(); ++p) {
      row.push_back(text(chance_words(order.places[bay][p])));
    }
    table.rows.push_back(std::move(row));
  }
  return html(table);
}

std::string notes(const std::vector<std::string>& plain) {
  std::string items;
  for (const std::string& each : plain) {
    items += element("li", text(each));
  }
  return element("ul class=\"notes\"", items);
}

}  // namespace

std::string crops_section(const Comparison& all) {
  std::string says;
  for (const std::string& each : crop_sentences(all)) {
    says += text(each) + " ";
  }
  const std::vector<std::string> how{label("crops.note_lease"), label("crops.note_days"),
                                     label("crops.note_pairs"), label("crops.note_cost")};
  return element("p class=\"says\"", says) + yields_table(all) + turn_order_table(all) +
         element("h2", say("crops.assumed")) + notes(assumed_sentences(all)) +
         element("h2", say("crops.notes")) + notes(how);
}

}  // namespace tidelot::page
