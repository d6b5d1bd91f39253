// SPDX-License-Identifier: Apache-2.0
// Sheet: what is seen from the shore.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/page/meeting.hpp"
#include "report/sheets/ground.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 4> kLayers{"depth", "land", "closed", "near"};
constexpr double kTaller = 10.0;
constexpr double kArm_m = 0.6;  ///< an arm's length, judgement

std::string blank() { return " " + room(); }

std::string length_words(double m, const ReportData& data, int decimals = 0) {
  return page::text(page::in_line(page::length(m, decimals), data.plan->report.units));
}

/// The boundary as seen from the nearest shore: its markers and end buoys side by side.
std::string elevation(const Site& site, const ReportData& data) {
  const double look =
      (site.shore ? site.shore->bearing_deg + 180.0 : 0.0) * 3.14159265358979 / 180.0;
  const double turn = look + data.grid_convergence_deg * 3.14159265358979 / 180.0;
  const auto across = [&](XY p) { return p.x * std::cos(turn) - p.y * std::sin(turn); };
  double low = across(site.corners_xy[0]);
  double high = low;
  for (const XY& corner : site.corners_xy) {
    low = std::min(low, across(corner));
    high = std::max(high, across(corner));
  }
  const double scale = round_scale((high - low) / data.grid_scale, 168.0);
  const double per_m = 1000.0 / (scale * data.grid_scale);
  const double tall = std::max(2.0, page::kMarkerHeight_m * kTaller * 1000.0 / scale);
  const double water = tall + 8.0;
  std::string all = stroke({2.0, water}, {kBodyWidth - 2.0, water}, {0.35, ""});
  const auto x_of = [&](XY p) { return 6.0 + (across(p) - low) * per_m; };
  for (const Marker& marker : site.gear.markers) {
    const double x = x_of(marker.point.xy);
    all += stroke({x, water}, {x, water - tall}, {0.3, ""}) +
           box({x - 0.9, water - tall}, 1.8, 1.8, {0.3, ""}, "#fff");
  }
  for (const GearLine& line : site.gear.lines) {
    for (const GearPoint& end : line.ends) {
      all += circle({x_of(end.xy), water}, 0.6, {0.25, ""});
    }
  }
  all += scale_bar({6.0, water + 6.0}, scale) +
         words({72.0, water + 7.5},
               page::plain_say("from_shore.scales", scale_words(scale), shortest(kTaller)), 2.6);
  return drawing(kBodyWidth, water + 15.0, page::label("from_shore.buoys"), all);
}

std::string seen(const Site& site, const ReportData& data) {
  page::Table out{page::label("from_shore.seen"),
                  {{page::label("from_shore.what")},
                   {page::label("from_shore.count"), true},
                   {page::label("from_shore.height")},
                   {page::label("from_shore.colour")},
                   {page::label("from_shore.months")}},
                  {},
                  ""};
  const std::string months = page::text(page::dates(site.outplant, site.last_haul));
  const std::string height =
      page::say("from_shore.or_more", length_words(page::kMarkerHeight_m, data, 1));
  const auto add = [&](std::string_view what, const std::string& count, const std::string& tall,
                       const std::string& when) {
    out.rows.push_back({page::say(what), count, tall, blank(), when});
  };
  add("from_shore.corner_markers", "4", height, blank());
  add("from_shore.markers_between", std::to_string(site.gear.markers.size() - 4), height, blank());
  add("from_shore.end_buoys", std::to_string(2 * site.layout.lines), blank(), months);
  add("from_shore.floats", "&nbsp;", blank(), months);
  std::string all = table(out);
  if (site.shore && site.shore->distance_m > 0.0) {
    const double mm_at_arm = page::kMarkerHeight_m / site.shore->distance_m * kArm_m * 1000.0;
    all += page::element(
        "p", page::say("from_shore.at_arms_length",
                       page::text(page::in_line(page::distance(site.shore->distance_m),
                                                data.plan->report.units)),
                       page::bearing(site.shore->bearing_deg),
                       length_words(page::kMarkerHeight_m, data, 1), fixed(mm_at_arm, 1)));
  }
  return all;
}

}  // namespace

Sheet from_shore(const Site& site, const ReportData& data) {
  const Title title{"from_shore.title", site.name};
  if (site.gear.markers.size() < 4) {
    return no_sheet(title, "marking.not_known");
  }
  Sheet out = sheet_of(title, data, kLayers);
  out.sources.push_back(page::label("from_shore.computed"));
  out.drawings = elevation(site, data) + key_map(site, data, "key-shore-" + site.name, 120.0, 64.0);
  out.notes = seen(site, data);
  return out;
}

}  // namespace tidelot::sheet
