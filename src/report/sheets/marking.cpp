// SPDX-License-Identifier: Apache-2.0
// Sheet: where markers stand.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/sheets/ground.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 2> kLayers{"depth", "land"};
/// Rows of the table that fit the sheet.
constexpr std::size_t kMostRows = 17;

std::string marker_map(const Site& site, const ReportData& data) {
  const double more = 0.2 * std::max(site.size.length_m, site.size.width_m) + 10.0;
  const Frame frame = filled_frame(around(site, more), extent_of(*data.grid), data.grid_scale,
                                   kBodyWidth - 1.0, 72.0);
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  std::string rings;
  std::string names;
  for (const Marker& marker : site.gear.markers) {
    const Spot at = frame.spot(marker.point.xy);
    labels.keep({at.x - 1.5, at.y - 1.5}, 3.0, 3.0);
    rings += circle(at, marker.kind == Marker::Kind::corner ? 1.4 : 1.0, {0.4, ""},
                    marker.kind == Marker::Kind::corner ? "#000" : "#fff");
  }
  for (std::size_t i = 0; i < site.gear.markers.size(); ++i) {
    names += labels.near(frame.spot(site.gear.markers[i].point.xy), fmt::format("M{:02d}", i + 1),
                         2.8, 2.0);
  }
  return map_drawing(
      frame, data, "marking-" + site.name, page::plain_say("marking.of_site", site.name),
      land_and_unknown(frame, data) + boundary(frame, site, {0.4, ""}), rings + names);
}

std::string marker_table(const Site& site) {
  page::Table out{page::plain_say("marking.markers", "WGS 84"),
                  {{page::label("marking.marker")},
                   {page::label("marking.at")},
                   {page::label("position.decimal_degrees")},
                   {page::label("position.degrees_decimal_minutes")},
                   {page::label("marking.shape")},
                   {page::label("marking.light")}},
                  {},
                  "tight"};
  std::size_t corner = 0;
  const std::size_t rows = std::min(site.gear.markers.size(), kMostRows);
  for (std::size_t i = 0; i < rows; ++i) {
    const Marker& marker = site.gear.markers[i];
    const bool is_corner = marker.kind == Marker::Kind::corner;
    corner += is_corner ? 1 : 0;
    out.rows.push_back(
        {fmt::format("M{:02d}", i + 1),
         is_corner ? page::say("marking.corner", corner) : page::say("marking.boundary"),
         page::decimal_degrees(marker.point.at), page::decimal_minutes(marker.point.at), "", ""});
  }
  const std::string more =
      rows < site.gear.markers.size()
          ? page::element("p", page::say("marking.more", site.gear.markers.size() - rows))
          : "";
  return table(out) + more;
}

}  // namespace

Sheet marking(const Site& site, const ReportData& data) {
  const Title title{"marking.title", site.name};
  if (site.gear.markers.empty()) {
    return no_sheet(title, "marking.not_known");
  }
  Sheet out = sheet_of(title, data, kLayers);
  out.sources.push_back(page::label("marking.computed"));
  out.drawings = marker_map(site, data);
  out.notes =
      marker_table(site) +
      page::element("p",
                    page::say("marking.at_most",
                              page::text(page::in_line(page::length(data.plan->report.marker_gap_m),
                                                       data.plan->report.units)),
                              room())) +
      page::element("p", page::say("marking.rules_seen"));
  return out;
}

}  // namespace tidelot::sheet
