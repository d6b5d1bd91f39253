// SPDX-License-Identifier: Apache-2.0
// Sheet: the ranked sites in a table, with a small map of where they lie.
#include <fmt/format.h>

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
    cautions += (cautions.empty() ? "" : "; ") + page::text(each);
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
      page::text(site.limited_by),
      cautions};
}

}  // namespace

Sheet ranked_sites(const ReportData& data) {
  const std::string title = "Ranked sites";
  if (data.sites->ranked.empty()) {
    return no_sheet(title, "no site was found");
  }
  Sheet out = sheet_of(title, data, kLayers);
  const Frame frame = frame_of(extent_of(*data.grid), data.grid_scale, 100.0, 70.0);
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
  for (const Site& site : data.sites->ranked) {
    rows.rows.push_back(row(site, data));
  }
  out.notes = table(rows) +
              page::element("p", page::text(page::spread_basis(*data.plan)) + ". " +
                                     page::text(page::together_sentence(data.sites->ranked,
                                                                        data.plan->report.units))) +
              legend(ground_legend());
  return out;
}

}  // namespace tidelot::sheet
