// SPDX-License-Identifier: Apache-2.0
// Sheet: the water that was not chosen, and why.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/regions.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/say.hpp"
#include "report/words/spread_words.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 6> kLayers{"depth",    "water", "closed",
                                                  "criteria", "sun",   "land"};
constexpr std::uint8_t kOther = static_cast<std::uint8_t>(kClasses);
constexpr std::uint8_t kNone = 255;
/// Rows of the table that fit the sheet.
constexpr std::size_t kMostRows = 13;

bool is_water(std::size_t code) { return code != reason::kOutside && code != reason::kLand; }

/// Reasons of water, the most frequent first.
std::vector<std::uint8_t> by_count(const ReportData& data) {
  std::vector<std::uint8_t> codes;
  const auto& counts = data.counts.by_reason;
  for (std::size_t each = 0; each < counts.size(); ++each) {
    if (counts[each] > 0 && is_water(each)) {
      codes.push_back(static_cast<std::uint8_t>(each));
    }
  }
  std::stable_sort(codes.begin(), codes.end(),
                   [&](std::uint8_t a, std::uint8_t b) { return counts[a] > counts[b]; });
  return codes;
}

std::string letter(std::size_t i) { return std::string(1, static_cast<char>('A' + i)); }

std::string reason_name(const ReportData& data, std::uint8_t code) {
  return code < data.reason_names.size() ? page::translated(data.reason_names[code]) : "";
}

/// The class of each reason: its place, or kOther beyond the hatches there are.
std::array<std::uint8_t, 256> classes_of(const std::vector<std::uint8_t>& codes) {
  std::array<std::uint8_t, 256> out{};
  out.fill(kNone);
  for (std::size_t i = 0; i < codes.size(); ++i) {
    out[codes[i]] = static_cast<std::uint8_t>(std::min<std::size_t>(i, kOther));
  }
  return out;
}

struct Map {
  std::string areas;
  std::string letters;
};

Map reason_areas(const Frame& frame, const ReportData& data, const std::vector<std::uint8_t>& codes,
                 Labels& labels) {
  const Samples samples = samples_of(frame, *data.grid);
  const auto classes = classes_of(codes);
  const auto drawn = coded(
      samples, [&](std::size_t cell) { return classes[data.maps.reason[cell]]; }, kNone);
  Map map;
  for (std::size_t i = 0; i < std::min<std::size_t>(codes.size(), kOther + 1U); ++i) {
    const auto code = static_cast<std::uint8_t>(i);
    map.areas += area(samples, drawn, code, i < kOther ? class_fill(i) : "#fff", {0.15, ""});
    const Middle middle = middle_of(samples.cols, samples.rows, drawn, code);
    if (middle.reach > 0.0) {
      map.letters += labels.near({samples.first.x + middle.col * samples.side_mm,
                                  samples.first.y + middle.row * samples.side_mm},
                                 i < kOther ? letter(i) : "*", 3.6, 0.0);
    }
  }
  return map;
}

std::string reason_table(const ReportData& data, const std::vector<std::uint8_t>& codes) {
  page::Table out{page::label("not_chosen.what_closes"),
                  {{""},
                   {page::label("not_chosen.hatch")},
                   {page::label("not_chosen.reason")},
                   {page::label("not_chosen.area"), true},
                   {page::label("not_chosen.of_the_water"), true}},
                  {},
                  "tight"};
  const double cell_ha =
      data.grid->cell_m * data.grid->cell_m / (data.grid_scale * data.grid_scale) / 1e4;
  std::size_t water = 0;
  for (const std::uint8_t code : codes) {
    water += data.counts.by_reason[code];
  }
  const std::size_t shown = std::min(codes.size(), kMostRows);
  for (std::size_t i = 0; i < shown; ++i) {
    const auto cells = static_cast<double>(data.counts.by_reason[codes[i]]);
    out.rows.push_back(
        {i < kOther ? letter(i) : "*", swatch(i < kOther ? class_fill(i) : "#fff"),
         page::text(cut(reason_name(data, codes[i]), 60)),
         page::text(page::in_line(page::area(cells * cell_ha), data.plan->report.units)),
         page::percent(cells / static_cast<double>(water))});
  }
  return table(out) + (shown < codes.size()
                           ? page::element("p", page::say("not_chosen.rarer", codes.size() - shown))
                           : "");
}

std::string apart_list(const ReportData& data) {
  std::string items;
  const std::size_t shown = std::min<std::size_t>(data.sites->apart.size(), 6);
  for (std::size_t i = 0; i < shown; ++i) {
    const Site& site = data.sites->apart[i];
    items += page::element("li", page::say("not_chosen.apart", page::text(site.name),
                                           page::text(page::apart_note(site))));
  }
  std::string all = items.empty() ? ""
                                  : page::element("h3", page::say("not_chosen.not_ranked")) +
                                        page::element("ul", items);
  std::vector<std::string> notes;
  for (const std::string& note : page::other_notes(*data.sites)) {
    notes.push_back(page::translated(note));
  }
  for (std::string& note : page::spread_notes(data.sites->ranked)) {
    notes.push_back(std::move(note));
  }
  for (std::size_t i = 0; i < std::min<std::size_t>(notes.size(), 5); ++i) {
    all += page::element("p", page::text(cut(notes[i], 200)));
  }
  return all;
}

}  // namespace

Sheet not_chosen(const ReportData& data) {
  const Title title{"not_chosen.title"};
  const std::vector<std::uint8_t> codes = by_count(data);
  if (codes.empty()) {
    return no_sheet(title, "not_chosen.no_water");
  }
  Sheet out = sheet_of(title, data, kLayers);
  const Frame frame = frame_of(extent_of(*data.grid), data.grid_scale, kBodyWidth - 1.0, 108.0);
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  const std::string sites = site_marks(frame, data, labels);
  const Map map = reason_areas(frame, data, codes, labels);
  out.drawings = map_drawing(frame, data, "not-chosen", page::label("not_chosen.map"),
                             map.areas + land_and_unknown(frame, data),
                             sites + "<g class=\"bold\">" + map.letters + "</g>");
  out.notes = reason_table(data, codes) + apart_list(data) +
              page::element("p", page::say("not_chosen.about"));
  return out;
}

}  // namespace tidelot::sheet
