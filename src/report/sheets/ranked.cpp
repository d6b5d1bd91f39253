// SPDX-License-Identifier: Apache-2.0
// Sheet: the ranked sites in a table, with a small map of where they lie.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/sheets/ground.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site_figures.hpp"
#include "report/spread_words.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 6> kLayers{"depth",    "water", "closed",
                                                  "criteria", "sun",   "land"};

/// Rows of the table that fit the sheet.
constexpr std::size_t kMostRows = 11;
constexpr std::size_t kMostWords = 90;

/// The best estimate, and below it the range where there is one.
std::string with_range(double best, const Quantiles* range, page::Measure (*measure)(double),
                       page::Units units) {
  std::string all = page::text(page::in_line(measure(best), units));
  if (range != nullptr) {
    all += "<br>" + page::text(page::range_in_line(*range, measure, units));
  }
  return all;
}

std::vector<std::string> row(const Site& site, const ReportData& data) {
  const page::Units units = data.plan->report.units;
  const auto words = [&](const page::Measure& measure) {
    return page::text(page::in_line(measure, units));
  };
  std::string cautions;
  for (const std::string& each : site.cautions) {
    cautions += (cautions.empty() ? "" : "; ") + each;
  }
  return {
      page::text(site.name),
      page::decimal_degrees(site.centre),
      words(page::area(site.area_ha)),
      words(page::depths(site.depth_min_m, site.depth_max_m)),
      fixed(site.suitability, 2),
      with_range(site.yield_t, site.spread ? &site.spread->yield_t : nullptr, page::crop, units),
      with_range(site.nitrogen_kg, site.spread ? &site.spread->nitrogen_kg : nullptr,
                 page::nitrogen, units),
      page::dates(site.outplant, site.last_haul),
      page::text(cut(site.limited_by, kMostWords)),
      page::text(cut(cautions, kMostWords))};
}

}  // namespace

Sheet ranked_sites(const ReportData& data) {
  const std::string title = "Ranked sites";
  if (data.sites->ranked.empty()) {
    return no_sheet(title, "no site was found");
  }
  Sheet out = sheet_of(title, data, kLayers);
  const Frame frame = frame_of(extent_of(*data.grid), data.grid_scale, 100.0, 72.0);
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  out.drawings = map_drawing(frame, data, "ranked", "Where the ranked sites lie",
                             land_and_unknown(frame, data), site_marks(frame, data, labels));
  page::Table rows{"Ranked sites, the best first",
                   {{"Site"},
                    {"Middle, latitude, longitude"},
                    {"Area"},
                    {"Depth at low water"},
                    {"Suit.", true},
                    {"Yield of a season"},
                    {"Nitrogen taken out"},
                    {"In the water"},
                    {"Held back by"},
                    {"Cautions"}},
                   {},
                   "tight wide"};
  const std::size_t shown = std::min(data.sites->ranked.size(), kMostRows);
  for (std::size_t i = 0; i < shown; ++i) {
    rows.rows.push_back(row(data.sites->ranked[i], data));
  }
  out.beside = frame.width < kNarrow;
  out.notes = legend(ground_legend()) +
              page::element("p", page::text(page::spread_basis(*data.plan)) + ". " +
                                     page::text(page::together_sentence(data.sites->ranked,
                                                                        data.plan->report.units))) +
              table(rows) +
              (shown < data.sites->ranked.size()
                   ? page::element("p", fmt::format("{} more stand in report.html.",
                                                    data.sites->ranked.size() - shown))
                   : "");
  return out;
}

}  // namespace tidelot::sheet
