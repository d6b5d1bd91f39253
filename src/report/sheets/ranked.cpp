// SPDX-License-Identifier: Apache-2.0
// Sheet: the ranked sites in a table, with a small map of where they lie.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/sheets/ground.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/say.hpp"
#include "report/words/spread_words.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 6> kLayers{"depth",    "water", "closed",
                                                  "criteria", "sun",   "land"};

constexpr double kMapHeight = 72.0;  ///< mm
constexpr double kAround = 22.0;     ///< mm for the table's caption, its head, and what is below
constexpr double kRow = 12.7;        ///< mm, of four lines
constexpr std::size_t kMostWords = 60;

/// The best estimate, and below it the range where there is one.
std::string with_range(double best, const Quantiles* range, page::Measure (*measure)(double),
                       page::Units units) {
  std::string all = page::text(page::in_line(measure(best), units));
  if (range != nullptr) {
    all += "<br>" + page::text(page::range_in_line(*range, measure, units));
  }
  return all;
}

Frame frame_for(const ReportData& data) {
  return frame_of(extent_of(*data.grid), data.grid_scale, 100.0, kMapHeight);
}

std::vector<std::string> row(const Site& site, const ReportData& data) {
  const page::Units units = data.plan->report.units;
  const auto words = [&](const page::Measure& measure) {
    return page::text(page::in_line(measure, units));
  };
  std::string cautions;
  for (const std::string& each : site.cautions) {
    cautions += (cautions.empty() ? "" : "; ") + page::translated(each);
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
      page::text(cut(page::translated(site.limited_by), kMostWords)),
      page::text(cut(cautions, kMostWords))};
}

}  // namespace

std::size_t ranked_on_a_sheet(const ReportData& data) {
  return static_cast<std::size_t>((kBodyHeight - frame_for(data).height - kFurniture - kAround) /
                                  kRow);
}

Sheet ranked_sites(const ReportData& data, std::size_t first) {
  const Title title{first == 0 ? "ranked.title" : "ranked.continued"};
  if (data.sites->ranked.empty()) {
    return no_sheet(title, "paper.no_site_was_found");
  }
  Sheet out = sheet_of(title, data, kLayers);
  const Frame frame = frame_for(data);
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  out.drawings = map_drawing(frame, data, "ranked", page::label("ranked.map"),
                             land_and_unknown(frame, data), site_marks(frame, data, labels));
  page::Table rows{page::label("ranked.the_best_first"),
                   {{page::label("ranked.site")},
                    {page::label("ranked.middle")},
                    {page::label("ranked.area")},
                    {page::label("ranked.depth")},
                    {page::label("ranked.suitability"), true},
                    {page::label("ranked.yield")},
                    {page::label("ranked.nitrogen")},
                    {page::label("ranked.in_the_water")},
                    {page::label("ranked.held_back_by")},
                    {page::label("ranked.cautions")}},
                   {},
                   "tight wide"};
  const std::size_t last = std::min(data.sites->ranked.size(), first + ranked_on_a_sheet(data));
  for (std::size_t i = first; i < last; ++i) {
    rows.rows.push_back(row(data.sites->ranked[i], data));
  }
  out.beside = frame.width < kNarrow;
  out.notes = legend(ground_legend()) +
              page::element("p", page::text(page::spread_basis(*data.plan)) + ". " +
                                     page::text(page::together_sentence(data.sites->ranked,
                                                                        data.plan->report.units))) +
              table(rows) +
              (last < data.sites->ranked.size()
                   ? page::element("p", page::say("ranked.more", data.sites->ranked.size() - last))
                   : "");
  return out;
}

}  // namespace tidelot::sheet
