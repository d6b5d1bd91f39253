// SPDX-License-Identifier: Apache-2.0
// Sheet: one end of a line, a stretch of it, and a marker, with sizes.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 1> kLayers{"depth"};
constexpr double kWide = 150.0;  ///< mm for one end of a line
constexpr double kStretch_m = 2.0;
constexpr double kStretchWide = 78.0;

std::string length_words(double m, const ReportData& data, int decimals = 1) {
  return page::in_line(page::length(m, decimals), data.plan->report.units);
}

/// One end of a line from the side, the same scale along and up.
std::string one_end(const Site& site, const ReportData& data) {
  const FarmPlan& farm = data.plan->farm;
  const double range = data.plan->depth.tidal_range_m;
  const double deep = site.depth_max_m;
  const double leg = std::max(1.0, (site.gear.box_length_m - site.layout.usable_m) / 2.0);
  const double shown = std::min(site.layout.usable_m, 0.4 * leg + 2.0);
  const double scale = std::max(round_scale(leg + shown, kWide), round_scale(deep + range, 60.0));
  const auto at = [&](double m, double height) {
    return Spot{12.0 + m * 1000.0 / scale, 10.0 + (range - height) * 1000.0 / scale};
  };
  const Spot end = at(leg, -farm.line_depth_m);
  const Spot right = at(leg + shown, -farm.line_depth_m);
  const Spot anchor = at(0.0, -deep);
  std::string all =
      path(way(std::array<Spot, 4>{at(-0.06 * leg, -deep), at(leg + shown, -deep),
                                   Spot{right.x, anchor.y + 4.0},
                                   Spot{at(-0.06 * leg, 0).x, anchor.y + 4.0}},
               true),
           {0.01, ""}, kBed) +
      stroke(at(-0.06 * leg, -deep), at(leg + shown, -deep), {0.5, ""}) +
      stroke(at(-0.06 * leg, 0.0), at(leg + shown, 0.0), {0.35, ""}) +
      stroke(at(-0.06 * leg, range), at(leg + shown, range), {0.25, "3 1"}) +
      words({right.x + 1.0, at(0, 0).y + 0.8}, page::label("section.low_water"), 2.4) +
      words({right.x + 1.0, at(0, range).y + 0.8}, page::label("section.high_water"), 2.4);
  all += stroke(end, anchor, {0.35, ".9 .6"}) + stroke(end, right, {0.6, ""}) +
         stroke(at(leg, 0.0), end, {0.3, ""}) + circle(at(leg, 0.0), 1.4, {0.4, ""}) +
         box({anchor.x - 1.6, anchor.y - 0.8}, 3.2, 2.0, {0.3, ""}, "#000");
  const int tufts = static_cast<int>((right.x - end.x) / 1.6);
  for (int i = 1; i <= tufts; ++i) {
    const double x = end.x + i * (right.x - end.x) / (tufts + 1);
    all += stroke({x, end.y}, {x, end.y + farm.hang_m * 1000.0 / scale}, {0.25, ""});
  }
  const double foot = anchor.y + 6.0;
  all += dimension({anchor.x, foot}, {end.x, foot},
                   page::plain_say("gear.anchor_leg_flat", length_words(leg, data)), 4.0) +
         scale_bar({12.0, foot + 10.0}, scale) +
         words({78.0, foot + 11.5}, page::plain_say("gear.one_end_scale", scale_words(scale)), 2.8);
  return drawing(kBodyWidth, foot + 18.0, page::label("gear.one_end"), all);
}

/// Two metres of line with its bundles.
std::string stretch(const ReportData& data) {
  const FarmPlan& farm = data.plan->farm;
  const double scale = round_scale(kStretch_m, kStretchWide - 4.0);
  const double per_m = 1000.0 / scale;
  std::string all = stroke({2.0, 6.0}, {2.0 + kStretch_m * per_m, 6.0}, {0.8, ""});
  const int bundles = static_cast<int>(kStretch_m / farm.bundle_m);
  const double tail = std::min(farm.hang_m, 1.0) * per_m;
  for (int i = 0; i < std::min(bundles, 200); ++i) {
    const double x = 2.0 + (i + 0.5) * farm.bundle_m * per_m;
    all += path(fmt::format("M{0} 6c-1 {1} 1 {1} 0 {2}M{0} 6c1 {1} -1.4 {1} -.6 {2}", mm(x),
                            mm(tail / 2), mm(tail)),
                {0.3, ""});
  }
  const double below = 8.0 + tail;
  all += dimension({2.0 + 0.5 * farm.bundle_m * per_m, below},
                   {2.0 + 1.5 * farm.bundle_m * per_m, below}, "", 2.0) +
         words({2.0, below + 7.0},
               page::plain_say("gear.between_bundles", length_words(farm.bundle_m, data, 2),
                               length_words(farm.hang_m, data)),
               2.5) +
         scale_bar({6.0, below + 13.0}, scale) +
         words({2.0, below + 24.0}, page::plain_say("gear.stretch_scale", scale_words(scale)), 2.8);
  return drawing(kStretchWide, below + 26.0, page::label("gear.stretch"), all);
}

std::string sizes(const Site& site, const ReportData& data) {
  const FarmPlan& farm = data.plan->farm;
  page::Table out{page::label("gear.sizes"),
                  {{page::label("gear.part")},
                   {page::label("gear.from_the_plan")},
                   {page::label("gear.material")}},
                  {},
                  ""};
  const std::string blank = "<span class=\"write\">&nbsp;</span>";
  const auto add = [&](std::string_view part, const std::string& plain) {
    out.rows.push_back({page::say(part), page::text(plain), blank});
  };
  add("gear.longline",
      page::plain_say(farm.fixed_line ? "gear.lines_fixed" : "gear.lines_floating",
                      site.layout.lines, length_words(site.layout.usable_m, data),
                      length_words(farm.line_gap_m, data), length_words(farm.line_depth_m, data)));
  add("gear.crop", page::plain_say("gear.bundles", data.plan->crop.title, site.layout.bundles));
  add("gear.anchor_leg", page::plain_say("gear.times_the_depth", shortest(farm.scope)));
  add("gear.anchor", page::plain_say("gear.two_a_line", 2 * site.layout.lines));
  add("gear.end_buoy", page::plain_say("gear.two_a_line", 2 * site.layout.lines));
  add("gear.floats_between", page::label("gear.not_in_the_plan"));
  add("gear.markers", page::plain_say("gear.apart_at_most", site.gear.markers.size(),
                                      length_words(data.plan->report.marker_gap_m, data)));
  return table(out);
}

}  // namespace

Sheet gear_detail(const Site& site, const ReportData& data) {
  const Title title{"gear.title", site.name};
  if (site.layout.lines <= 0) {
    return no_sheet(title, "gear.no_line");
  }
  Sheet out = sheet_of(title, data, kLayers);
  out.sources.push_back(page::label("paper.gear_of_the_plan"));
  out.drawings = one_end(site, data) + stretch(data) +
                 key_map(site, data, "key-gear-" + site.name, 70.0, 30.0);
  out.notes =
      sizes(site, data) +
      page::element("p", page::text(page::plain_say(
                             "gear.lines_lie_along",
                             page::bearing(site.angle_deg - data.grid_convergence_deg),
                             page::bearing(site.angle_deg - data.grid_convergence_deg + 180.0),
                             length_words(site.depth_max_m, data)))) +
      page::element("p", page::say("gear.designed"));
  return out;
}

}  // namespace tidelot::sheet
