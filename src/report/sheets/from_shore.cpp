// SPDX-License-Identifier: Apache-2.0
// Sheet: what is seen from the shore, and what neighbours ask.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/sheets/ground.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site_figures.hpp"
#include "report/words.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 4> kLayers{"depth", "land", "closed", "near"};
constexpr double kMarkerHeight_m = 0.9;  ///< 3 ft or more above water in the published rules
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
  const double tall = std::max(2.0, kMarkerHeight_m * kTaller * 1000.0 / scale);
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
               fmt::format("Across: {}. Markers drawn {} times as tall.", scale_words(scale),
                           shortest(kTaller)),
               2.6);
  return drawing(kBodyWidth, water + 15.0, "The buoys as seen from the nearest shore", all);
}

std::string seen(const Site& site, const ReportData& data) {
  page::Table out{
      "What is seen above the water",
      {{"What"}, {"Count", true}, {"Height above water"}, {"Colour (write in)"}, {"Months"}},
      {},
      ""};
  const std::string months = page::text(page::dates(site.outplant, site.last_haul));
  const std::string height = length_words(kMarkerHeight_m, data, 1) +
                             " or more (rules seen; "
                             "not verified for this place)";
  out.rows.push_back({"Corner markers", "4", height, blank(), blank()});
  out.rows.push_back({"Markers between them", std::to_string(site.gear.markers.size() - 4), height,
                      blank(), blank()});
  out.rows.push_back(
      {"End buoys of lines", std::to_string(2 * site.layout.lines), blank(), blank(), months});
  out.rows.push_back({"Floats along lines", "&nbsp;", blank(), blank(), months});
  std::string all = table(out);
  if (site.shore && site.shore->distance_m > 0.0) {
    const double mm_at_arm = kMarkerHeight_m / site.shore->distance_m * kArm_m * 1000.0;
    all += page::element(
        "p", fmt::format("From the nearest land, {} from the site's edge (bearing {}), a marker "
                         "{} tall looks as tall as {} mm at arm&#39;s length.",
                         page::text(page::in_line(page::distance(site.shore->distance_m),
                                                  data.plan->report.units)),
                         page::bearing(site.shore->bearing_deg),
                         length_words(kMarkerHeight_m, data, 1), fixed(mm_at_arm, 1)));
  }
  return all;
}

std::string distance_answer(const Site& site, std::string_view word, const ReportData& data) {
  for (const RuleDistance& each : site.rules) {
    const std::string& name = page::rule_name(each, *data.plan);
    if (lower_ascii(name).find(word) != std::string::npos) {
      return fmt::format(
          "{}: {}", page::text(name),
          page::text(page::in_line(page::distance(each.distance_m), data.plan->report.units)));
    }
  }
  return "no such layer in the plan." + blank();
}

std::string questions(const Site& site, const ReportData& data) {
  page::Table out{"What neighbours ask", {{"Question"}, {"Answer"}}, {}, ""};
  const auto add = [&](std::string_view question, const std::string& answer) {
    out.rows.push_back({std::string(question), answer});
  };
  add("How far from the shore?",
      site.shore ? page::text(page::in_line(page::distance(site.shore->distance_m),
                                            data.plan->report.units)) +
                       (site.shore->map_ends_nearer ? " (the map ends nearer)" : "")
                 : "the map shows no land." + blank());
  add("How far from the channel?", distance_answer(site, "channel", data));
  add("How far from moorings?", distance_answer(site, "mooring", data));
  add("Eelgrass?", distance_answer(site, "grass", data) + ". Nobody has cleared the site.");
  add("Other farms here already?", distance_answer(site, "lease", data));
  add("Nearest dock?", site.landing
                           ? "landing named in the plan: " +
                                 page::text(page::in_line(page::distance(site.landing->distance_m),
                                                          data.plan->report.units))
                           : blank());
  add("When is it gone?",
      data.plan->season.gear_out
          ? "gear out by " + page::text(page::date(*data.plan->season.gear_out)) + " (plan)"
          : "last haul about " + page::text(page::date(site.last_haul)) + "; gear out:" + blank());
  add("What bottom?", "not in the plan." + blank());
  add("What if it breaks loose? Who to call?", blank());
  add("May one still fish, sail, anchor, swim, dig there?", blank());
  return table(out);
}

}  // namespace

Sheet from_shore(const Site& site, const ReportData& data) {
  const std::string title = "View from shore, site " + site.name;
  if (site.gear.markers.size() < 4) {
    return no_sheet(title, "the markers of the site are not known");
  }
  Sheet out = sheet_of(title, data, kLayers);
  out.sources.push_back("gear, markers: computed by tidelot from [farm] and [report] marker_gap_m");
  out.drawings = elevation(site, data) + key_map(site, data, "key-shore-" + site.name, 70.0, 28.0);
  out.notes = seen(site, data) + questions(site, data);
  return out;
}

}  // namespace tidelot::sheet
