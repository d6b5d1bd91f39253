// SPDX-License-Identifier: Apache-2.0
// Sheet: one site from above, with its gear, soundings and corners.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 5> kLayers{"depth", "land", "closed", "near",
                                                  "water.current"};
constexpr double kMapHeight = 78.0;       ///< mm
constexpr double kSoundingEvery = 14.0;   ///< mm
constexpr std::size_t kMostLayers = 4;    ///< in the legend
constexpr std::size_t kMostLetters = 34;  ///< of a layer's name

std::string gear(const Frame& frame, const Site& site) {
  std::string all;
  const auto spots = [&](const auto& points) {
    std::vector<Spot> out;
    out.reserve(points.size());
    for (const GearPoint& point : points) {
      out.push_back(frame.spot(point.xy));
    }
    return out;
  };
  if (site.gear.box_width_m > 0.0) {
    all += path(way(spots(site.gear.box), true), {0.25, "2.5 .7 .5 .7"});
  }
  for (const GearLine& line : site.gear.lines) {
    const auto ends = spots(line.ends);
    const auto anchors = spots(line.anchors);
    all += stroke(anchors[0], ends[0], {0.15, ".8 .6"}) +
           stroke(ends[1], anchors[1], {0.15, ".8 .6"}) + stroke(ends[0], ends[1], {0.45, ""});
    for (const Spot& at : anchors) {
      all += stroke({at.x - 0.7, at.y - 0.7}, {at.x + 0.7, at.y + 0.7}, {0.3, ""}) +
             stroke({at.x - 0.7, at.y + 0.7}, {at.x + 0.7, at.y - 0.7}, {0.3, ""});
    }
  }
  return all;
}

std::string markers(const Frame& frame, const Site& site) {
  std::string all;
  for (const Marker& marker : site.gear.markers) {
    all += circle(frame.spot(marker.point.xy), marker.kind == Marker::Kind::corner ? 1.1 : 0.8,
                  {0.35, ""});
  }
  return all;
}

/// A spot moved away from the site's middle.
Spot outward(Spot at, Spot middle, double by) {
  const double reach = std::max(1e-9, std::hypot(at.x - middle.x, at.y - middle.y));
  return {at.x + (at.x - middle.x) / reach * by, at.y + (at.y - middle.y) / reach * by};
}

std::string corner_names(const Frame& frame, const Site& site, Labels& labels) {
  std::string all;
  const Spot middle = frame.spot(site.centre_xy);
  for (std::size_t i = 0; i < site.corners_xy.size(); ++i) {
    const Spot at = frame.spot(site.corners_xy[i]);
    labels.keep({at.x - 1.2, at.y - 1.2}, 2.4, 2.4);
    all += labels.near(outward(at, middle, 2.0), fmt::format("C{}", i + 1), 3.2, 1.0);
  }
  return "<g class=\"bold\">" + all + "</g>";
}

std::string side_names(const Frame& frame, const Site& site, Labels& labels, page::Units units) {
  std::string all;
  const Spot middle = frame.spot(site.centre_xy);
  for (std::size_t i = 0; i < site.corners_xy.size(); ++i) {
    const Spot a = frame.spot(site.corners_xy[i]);
    const Spot b = frame.spot(site.corners_xy[(i + 1) % site.corners_xy.size()]);
    const Printed::Side& side = site.printed.sides[i];
    all += labels.near(outward({(a.x + b.x) / 2, (a.y + b.y) / 2}, middle, 1.5),
                       fmt::format("{}, {}", page::in_line(page::side(side.length_m), units),
                                   page::bearing(side.bearing_deg)),
                       2.5, 1.5);
  }
  return all;
}

std::string section_line(const Frame& frame, const Site& site, Labels& labels) {
  const Spot a = frame.spot(site.gear.section[0].xy);
  const Spot b = frame.spot(site.gear.section[1].xy);
  const Spot middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
  const Spot from = outward(a, middle, 6.0);
  const Spot to = outward(b, middle, 6.0);
  labels.keep_line(from, to);
  return stroke(from, to, {0.3, "4 .8 .8 .8"}) + "<g class=\"bold\">" +
         labels.near(from, "A", 3.4, 0.8) + labels.near(to, "A′", 3.4, 0.8) + "</g>";
}

/// Depths at low water in metres, on a net; none where another label stands.
std::string soundings(const Frame& frame, const ReportData& data, Labels& labels) {
  std::string all;
  for (double y = 9.0; y < frame.height - 4.0; y += kSoundingEvery) {
    for (double x = 18.0; x < frame.width - 4.0; x += kSoundingEvery) {
      const XY at{frame.extent.west + x / frame.mm_per_m, frame.extent.north - y / frame.mm_per_m};
      const Cell cell = data.grid->cell_of(at);
      if (!data.grid->holds(cell)) {
        continue;
      }
      const float depth = data.maps.depth_low_water[data.grid->index(cell.col, cell.row)];
      all += std::isnan(depth) ? "" : labels.on({x, y}, fixed(depth, 1), 2.3);
    }
  }
  return all;
}

/// Along the axis of the current; which way is ebb is not in the data.
std::string current(const Site& site, const ReportData& data) {
  if (!site.axis_deg) {
    return page::element("p", page::say("plan_view.no_direction", room(), room()));
  }
  const double turn = (*site.axis_deg + data.grid_convergence_deg) * std::numbers::pi / 180.0;
  const Spot tip{7.0 * std::sin(turn), -7.0 * std::cos(turn)};
  return drawing(18.0, 18.0, page::label("plan_view.axis"),
                 arrow({9.0 - tip.x, 9.0 - tip.y}, {9.0 + tip.x, 9.0 + tip.y}, true)) +
         page::element("p", page::say("plan_view.flood_and_ebb", page::bearing(*site.axis_deg),
                                      page::bearing(*site.axis_deg + 180.0)));
}

std::string shapes(const Frame& frame, const ReportData& data) {
  std::string all;
  for (std::size_t i = 0; i < data.closed.size(); ++i) {
    for (const Feature& feature : data.closed[i].features) {
      all += shape(frame, feature.shape, class_fill(i), {0.3, class_dashes(i)});
    }
  }
  return all;
}

std::string corner_table(const Site& site) {
  page::Table out{page::plain_say("plan_view.corners", site.printed.datum,
                                  site.printed.utm_zone.empty() ? "UTM" : site.printed.utm_zone),
                  {{""},
                   {page::label("position.decimal_degrees")},
                   {page::label("position.degrees_decimal_minutes")},
                   {page::label("position.degrees_minutes_seconds")},
                   {page::label("plan_view.easting_northing")}},
                  {},
                  "tight"};
  const auto add = [&](const std::string& name, LonLat at, XY utm) {
    out.rows.push_back(
        {name, page::decimal_degrees(at), page::decimal_minutes(at), page::minutes_seconds(at),
         site.printed.utm_zone.empty() ? ""
                                       : fmt::format("{}, {}", fixed(utm.x, 2), fixed(utm.y, 2))});
  };
  for (std::size_t i = 0; i < site.printed.corners.size(); ++i) {
    add(fmt::format("C{}", i + 1), site.printed.corners[i], site.printed.utm_corners[i]);
  }
  add(page::label("plan_view.middle"), site.printed.centre, site.printed.utm_centre);
  return table(out);
}

std::string figures(const Site& site, const ReportData& data) {
  const page::Units units = data.plan->report.units;
  const auto words = [&](const page::Measure& measure) {
    return page::text(page::in_line(measure, units));
  };
  std::string all =
      page::say("plan_view.figures", words(page::area(site.printed.area_ha)),
                words(page::area(site.gear.box_area_ha)), site.layout.lines,
                words(page::length(site.layout.line_m, 0)),
                words(page::depths(site.depth_min_m, site.depth_max_m)),
                words(page::depths(site.depth_min_m + data.plan->depth.tidal_range_m,
                                   site.depth_max_m + data.plan->depth.tidal_range_m)));
  if (site.own > 0) {
    all += " " + page::text(page::own_layout_sentence(site, units)) + ".";
  }
  if (site.shore) {
    all += " " + page::say(site.shore->map_ends_nearer ? "plan_view.nearest_land_or_beyond"
                                                       : "plan_view.nearest_land",
                           words(page::distance(site.shore->distance_m)),
                           page::bearing(site.shore->bearing_deg));
  }
  for (std::size_t i = 0; i < std::min<std::size_t>(site.rules.size(), 3); ++i) {
    all +=
        " " + page::say("plan_view.from_the_edge",
                        page::text(cut(page::rule_name(site.rules[i], *data.plan), kMostLetters)),
                        words(page::distance(site.rules[i].distance_m)));
  }
  return page::element("p", all);
}

std::string legend_of(const Frame& frame, const ReportData& data) {
  std::string rows =
      legend_row(line_swatch({0.6, ""}), page::say("plan_view.boundary")) +
      legend_row(line_swatch({0.25, "2.5 .7 .5 .7"}), page::say("plan_view.gear_box")) +
      legend_row(line_swatch({0.45, ""}), page::say("plan_view.longline")) +
      legend_row(line_swatch({0.15, ".8 .6"}), page::say("plan_view.anchor_leg")) +
      legend_row(line_swatch({0.3, "4 .8 .8 .8"}), page::say("plan_view.section")) +
      ground_legend();
  std::size_t seen = 0;
  for (std::size_t i = 0; i < data.closed.size(); ++i) {
    const bool in_frame =
        std::any_of(data.closed[i].features.begin(), data.closed[i].features.end(),
                    [&](const Feature& each) { return label_spot(frame, each.shape).has_value(); });
    seen += in_frame ? 1 : 0;
    rows += in_frame && seen <= kMostLayers
                ? legend_row(swatch(class_fill(i), {0.3, class_dashes(i)}),
                             page::text(cut(data.closed[i].plan.name, kMostLetters)))
                : "";
  }
  return legend(rows) + (seen > kMostLayers
                             ? page::element("p", page::say("plan_view.more", seen - kMostLayers))
                             : "");
}

}  // namespace

Sheet plan_view(const Site& site, const ReportData& data) {
  Sheet out = sheet_of({"plan_view.title", site.name}, data, kLayers);
  out.horizontal_datum =
      page::plain_say("paper.positions_and_map", site.printed.datum, data.grid_crs_name);
  out.sources.push_back(page::label("plan_view.corners_computed"));
  const double more = 0.15 * std::max(site.size.length_m, site.size.width_m) + 10.0;
  const Frame frame = filled_frame(around(site, more), extent_of(*data.grid), data.grid_scale,
                                   kBodyWidth - 1.0, kMapHeight);
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  for (std::size_t i = 0; i < 4; ++i) {
    labels.keep_line(frame.spot(site.corners_xy[i]), frame.spot(site.corners_xy[(i + 1) % 4]));
  }
  labels.keep_line(frame.spot(site.gear.section[0].xy), frame.spot(site.gear.section[1].xy));
  std::string above = "<g>" + corner_names(frame, site, labels) +
                      section_line(frame, site, labels) +
                      side_names(frame, site, labels, data.plan->report.units) + "</g>";
  const std::string depths = soundings(frame, data, labels);
  out.drawings =
      map_drawing(frame, data, "plan-" + site.name, page::plain_say("plan_view.of_site", site.name),
                  shapes(frame, data) + land_and_unknown(frame, data) + boundary(frame, site) +
                      gear(frame, site) + markers(frame, site),
                  above + depths);
  out.notes = legend_of(frame, data) + corner_table(site) + figures(site, data) +
              current(site, data) + page::element("p", page::say("plan_view.numbers_on_the_water"));
  return out;
}

}  // namespace tidelot::sheet
