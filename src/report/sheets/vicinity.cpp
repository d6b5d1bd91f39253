// SPDX-License-Identifier: Apache-2.0
// Sheet: the whole bay, the sites in it, charted marks with distance and bearing.
#include <fmt/format.h>

#include <array>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site_figures.hpp"
#include "report/words.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 4> kLayers{"depth", "land", "area", "report"};

/// A charted mark: a ring with a dot.
std::string mark_symbol(Spot at) {
  return circle(at, 1.5, {0.4, ""}) + circle(at, 0.4, {}, "#000");
}

std::string marks(const Frame& frame, const Site& site, const ReportData& data, Labels& labels) {
  std::string all;
  for (std::size_t i = 0; i < site.marks.size(); ++i) {
    const XY place = off_from(site.centre_xy, site.marks[i], data);
    if (frame.holds(place)) {
      const Spot at = frame.spot(place);
      labels.keep({at.x - 1.6, at.y - 1.6}, 3.2, 3.2);
      all += mark_symbol(at) + labels.near(at, data.plan->report.marks[i].name, 2.8, 2.2);
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
         labels.near(at, "landing", 2.8, 2.2);
}

std::string mark_table(const Site& site, const ReportData& data) {
  page::Table out{fmt::format("From the middle of site {}", site.name),
                  {{"To"}, {"Distance", true}, {"True bearing", true}},
                  {},
                  "tight"};
  const auto add = [&](const std::string& name, const Direction& way) {
    out.rows.push_back(
        {page::text(name),
         page::text(page::in_line(page::distance(way.distance_m), data.plan->report.units)),
         page::bearing(way.bearing_deg)});
  };
  for (std::size_t i = 0; i < site.marks.size(); ++i) {
    add(data.plan->report.marks[i].name, site.marks[i]);
  }
  if (site.landing) {
    add("landing, straight", *site.landing);
  }
  if (site.shore) {
    add("nearest land (from the site's edge)", *site.shore);
  }
  return table(out);
}

std::string notes(const Site* site, const ReportData& data) {
  std::string all = legend(
      legend_row(line_swatch({0.5, ""}), "site, ranked; a star where it is too small to draw") +
      (data.sites->apart.empty() ? ""
                                 : legend_row(line_swatch({0.5, "1 .6"}), "place listed apart")) +
      ground_legend());
  if (site != nullptr) {
    all += mark_table(*site, data) +
           page::element("p", fmt::format("Site {}: {}; {}.", page::text(site->name),
                                          page::decimal_degrees(site->centre),
                                          page::decimal_minutes(site->centre)));
  }
  if (data.plan->report.marks.size() < 2) {
    all += page::element("p",
                         "Distance and bearing to two charted marks are asked for; the plan names "
                         "fewer ([[report.marks]]). Write them in.");
  }
  return all + page::element("p", "Chart and edition: " + room());
}

}  // namespace

Sheet vicinity(const ReportData& data) {
  Sheet out = sheet_of("Vicinity map", data, kLayers);
  out.sources.push_back("site corners: computed by tidelot from the plan");
  const Frame frame = frame_of(extent_of(*data.grid), data.grid_scale, kBodyWidth - 1.0, 140.0);
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  const Site* first = data.sites->ranked.empty() ? nullptr : &data.sites->ranked.front();
  std::string above = site_marks(frame, data, labels);
  if (first != nullptr) {
    above += marks(frame, *first, data, labels) + landing(frame, *first, data, labels);
  }
  out.drawings = map_drawing(frame, data, "vicinity", "Map of the whole bay with the sites",
                             land_and_unknown(frame, data), above);
  out.beside = frame.width < kNarrow;
  out.notes = notes(first, data);
  return out;
}

}  // namespace tidelot::sheet
