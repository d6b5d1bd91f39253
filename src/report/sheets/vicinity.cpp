// SPDX-License-Identifier: Apache-2.0
// Sheet: the whole bay, the sites in it, charted marks with distance and bearing.
#include <fmt/format.h>

#include <array>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 4> kLayers{"depth", "land", "area", "report"};
constexpr std::size_t kMostLetters = 24;  ///< of a mark's name on the map
constexpr double kMapHeight = 136.0;      ///< mm, with two marks in the table
constexpr double kRow = 4.0;              ///< mm, of the table of marks

/// A charted mark: a ring with a dot.
std::string mark_symbol(Spot at) {
  return circle(at, 1.5, {0.4, ""}) + circle(at, 0.4, {}, "#000");
}

std::string mark_symbols(const Frame& frame, const Site& site, const ReportData& data,
                         Labels& labels) {
  std::string all;
  for (std::size_t i = 0; i < site.marks.size(); ++i) {
    const XY place = off_from(site.centre_xy, site.marks[i], data);
    if (frame.holds(place)) {
      const Spot at = frame.spot(place);
      labels.keep({at.x - 1.6, at.y - 1.6}, 3.2, 3.2);
      all += mark_symbol(at) +
             labels.near(at, cut(data.plan->report.marks[i].name, kMostLetters), 2.8, 2.2);
    }
  }
  return all;
}

std::string landing(const Frame& frame, const Site& site, const ReportData& data, Labels& labels) {
  if (!site.landing) {
    return "";
  }
  const Spot at = frame.spot(off_from(site.centre_xy, *site.landing, data));
  labels.keep({at.x - 1.2, at.y - 1.2}, 2.4, 2.4);
  return box({at.x - 1.1, at.y - 1.1}, 2.2, 2.2, {0.3, ""}, "#000") +
         labels.near(at, page::label("vicinity.landing"), 2.8, 2.2);
}

std::string mark_table(const Site& site, const ReportData& data) {
  page::Table out{page::plain_say("vicinity.from_the_middle", site.name),
                  {{page::label("vicinity.to")},
                   {page::label("position.distance"), true},
                   {page::label("position.true_bearing"), true}},
                  {},
                  "tight"};
  const auto add = [&](const std::string& name, const Direction& way) {
    out.rows.push_back(
        {page::text(name),
         page::text(page::in_line(page::distance(way.distance_m), data.plan->report.units)),
         page::bearing(way.bearing_deg)});
  };
  for (std::size_t i = 0; i < site.marks.size(); ++i) {
    add(cut(data.plan->report.marks[i].name, 90), site.marks[i]);
  }
  if (site.landing) {
    add(page::label("vicinity.landing_straight"), *site.landing);
  }
  if (site.shore) {
    add(page::label("vicinity.nearest_land"), *site.shore);
  }
  return table(out);
}

std::string notes(const Site* site, const ReportData& data) {
  std::string all =
      legend(legend_row(line_swatch({0.5, ""}), page::say("vicinity.site_ranked")) +
             (data.sites->apart.empty()
                  ? ""
                  : legend_row(line_swatch({0.5, "1 .6"}), page::say("vicinity.listed_apart"))) +
             ground_legend());
  if (site != nullptr) {
    all += page::element(
        "p", page::say("vicinity.site_at", page::text(site->name),
                       page::decimal_degrees(site->centre), page::decimal_minutes(site->centre)));
  }
  if (data.plan->report.marks.size() < 2) {
    all += page::element("p", page::say("vicinity.fewer_than_two_marks"));
  }
  all += page::element("p", page::say("vicinity.chart_and_edition", room()));
  return all + (site != nullptr ? mark_table(*site, data) : "");
}

}  // namespace

Sheet vicinity(const ReportData& data) {
  Sheet out = sheet_of({"vicinity.title"}, data, kLayers);
  out.sources.push_back(page::label("vicinity.site_corners_computed"));
  const std::size_t marks = data.plan->report.marks.size();
  const Frame frame = frame_of(extent_of(*data.grid), data.grid_scale, kBodyWidth - 1.0,
                               kMapHeight - kRow * static_cast<double>(marks > 2 ? marks - 2 : 0));
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  const Site* first = data.sites->ranked.empty() ? nullptr : &data.sites->ranked.front();
  std::string above = site_marks(frame, data, labels);
  if (first != nullptr) {
    above += mark_symbols(frame, *first, data, labels) + landing(frame, *first, data, labels);
  }
  out.drawings = map_drawing(frame, data, "vicinity", page::label("vicinity.map"),
                             land_and_unknown(frame, data), above);
  out.beside = frame.width < kNarrow;
  out.notes = notes(first, data);
  return out;
}

}  // namespace tidelot::sheet
