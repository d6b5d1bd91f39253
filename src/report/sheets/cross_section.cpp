// SPDX-License-Identifier: Apache-2.0
// Sheet: the section A-A' along the lines through the middle of a site.
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

constexpr std::array<std::string_view, 2> kLayers{"depth", "land"};
constexpr double kLeft = 24.0;    ///< mm for the names of the levels
constexpr double kDrawn = 138.0;  ///< mm at most for the section
constexpr double kTall = 50.0;    ///< mm at most for the water and what is under it
constexpr int kPlaces = 80;

/// The section on paper: along it in metres on the ground, up in metres from low water.
struct Section {
  double along = 1.0;  ///< denominator
  double up = 1.0;
  double length_m = 0.0;
  double top_m = 0.0;
  [[nodiscard]] Spot at(double m, double height) const {
    return {kLeft + m * 1000.0 / along, 12.0 + (top_m - height) * 1000.0 / up};
  }
};

/// Depth at a place between four cells' centres; where one of them has none, that of the cell.
double depth_between(XY p, const ReportData& data) {
  const Grid& grid = *data.grid;
  const double col = (p.x - grid.west) / grid.cell_m - 0.5;
  const double row = (grid.north - p.y) / grid.cell_m - 0.5;
  const Cell first{static_cast<int>(std::floor(col)), static_cast<int>(std::floor(row))};
  const double u = col - first.col;
  const double v = row - first.row;
  double mean = 0.0;
  for (int k = 0; k < 4; ++k) {
    const Cell cell{first.col + k % 2, first.row + k / 2};
    const double weight = (k % 2 == 1 ? u : 1.0 - u) * (k / 2 == 1 ? v : 1.0 - v);
    mean += weight * (grid.holds(cell) ? data.maps.depth_low_water[grid.index(cell.col, cell.row)]
                                       : std::nan(""));
  }
  const Cell own = grid.cell_of(p);
  return !std::isnan(mean) ? mean
         : grid.holds(own) ? data.maps.depth_low_water[grid.index(own.col, own.row)]
                           : std::nan("");
}

/// Depths along A-A' at even steps; NaN where it is land or not known.
std::vector<double> bed(const Site& site, const ReportData& data) {
  std::vector<double> out;
  const XY a = site.gear.section[0].xy;
  const XY b = site.gear.section[1].xy;
  for (int i = 0; i <= kPlaces; ++i) {
    const double share = static_cast<double>(i) / kPlaces;
    out.push_back(depth_between({a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)}, data));
  }
  return out;
}

std::string level(const Section& section, double height, std::string_view plain, Pen pen,
                  bool right = false) {
  const Spot from = section.at(0.0, height);
  const Spot to = section.at(section.length_m, height);
  return stroke(from, to, pen) +
         (right ? words({to.x + 1.0, to.y + 0.8}, plain, 2.3)
                : words({from.x - 1.0, from.y + 0.8}, plain, 2.3, Anchor::end));
}

std::string bed_line(const Section& section, const std::vector<double>& depths, double lowest) {
  std::vector<Spot> spots;
  for (std::size_t i = 0; i < depths.size(); ++i) {
    if (!std::isnan(depths[i])) {
      spots.push_back(section.at(section.length_m * static_cast<double>(i) / kPlaces, -depths[i]));
    }
  }
  const std::string line = way(spots);
  spots.push_back(section.at(section.length_m, lowest));
  spots.push_back(section.at(0.0, lowest));
  return "<path class=\"bare\" d=\"" + way(spots, true) + "\" fill=\"" + std::string(kBed) +
         "\"/>" + path(line, {0.5, ""});
}

double depth_at(const std::vector<double>& depths, double share) {
  const auto i = static_cast<std::size_t>(std::clamp(share, 0.0, 1.0) * kPlaces + 0.5);
  return depths[std::min(i, depths.size() - 1)];
}

/// One longline and its legs as they lie at a water level.
std::string line_at(const Section& section, const Site& site, const FarmPlan& farm,
                    const std::vector<double>& depths, double water_m, bool full) {
  const double middle = section.length_m / 2;
  const double grown = site.layout.usable_m / 2;
  const double anchor = site.gear.box_length_m / 2;
  const double deep = water_m - farm.line_depth_m;
  const std::array<Spot, 3> line{section.at(middle - grown, deep),
                                 section.at(middle, deep - farm.sag_m),
                                 section.at(middle + grown, deep)};
  std::string all =
      path(fmt::format("M{} {}Q{} {} {} {}", mm(line[0].x), mm(line[0].y), mm(line[1].x),
                       mm(2 * line[1].y - line[0].y), mm(line[2].x), mm(line[2].y)),
           full ? Pen{0.5, ""} : Pen{0.3, "1.5 1"});
  for (const double side : {-1.0, 1.0}) {
    const double to = middle + side * anchor;
    const double ground = -depth_at(depths, to / section.length_m);
    const Spot end = section.at(middle + side * grown, deep);
    const Spot foot = section.at(to, ground);
    all += stroke(end, foot, full ? Pen{0.3, ".9 .6"} : Pen{0.2, ".4 .8"});
    if (full) {
      const Spot buoy = section.at(middle + side * grown, water_m);
      all += stroke(buoy, end, {0.25, ""}) + circle(buoy, 1.1, {0.35, ""}) +
             box({foot.x - 1.2, foot.y - 0.6}, 2.4, 1.6, {0.3, ""}, "#000");
    }
  }
  return all;
}

std::string hanging(const Section& section, const Site& site, const FarmPlan& farm) {
  std::string all;
  const double middle = section.length_m / 2;
  const int tufts = static_cast<int>(site.layout.usable_m * 1000.0 / section.along / 2.2);
  for (int i = 0; i <= tufts; ++i) {
    const double off = (static_cast<double>(i) / std::max(1, tufts) - 0.5) * site.layout.usable_m;
    const double share = 2.0 * off / site.layout.usable_m;
    const double deep = -farm.line_depth_m - farm.sag_m * (1.0 - share * share);
    all += stroke(section.at(middle + off, deep), section.at(middle + off, deep - farm.hang_m),
                  {0.3, ""});
  }
  return all;
}

std::string length_words(double m, const ReportData& data) {
  return page::in_line(page::length(m, 1), data.plan->report.units);
}

std::string draw(const Site& site, const ReportData& data, const std::vector<double>& depths,
                 Section& section) {
  const Plan& plan = *data.plan;
  const double range = plan.depth.tidal_range_m;
  double deepest = 0.0;
  for (const double each : depths) {
    deepest = std::isnan(each) ? deepest : std::max(deepest, each);
  }
  const double lowest = -deepest - 0.12 * (deepest + range);
  section.length_m = site.size.length_m;
  section.along = round_scale(section.length_m, kDrawn);
  section.top_m = range;
  section.up = round_scale(range - lowest, kTall);
  const bool floats = !plan.farm.fixed_line;
  std::string all = bed_line(section, depths, lowest);
  all += level(section, 0.0, page::label("section.low_water"), {0.35, ""});
  if (range > 0.0) {
    all += level(section, range, page::label("section.high_water"), {0.35, "3 1"});
  }
  if (plan.depth.lowest_tide_m < 0.0) {
    all += level(section, plan.depth.lowest_tide_m, page::label("section.lowest_tide"),
                 {0.2, "1 1"}, true);
  }
  if (site.layout.lines > 0) {
    if (floats && range > 0.0) {
      all += line_at(section, site, plan.farm, depths, range, false);
    }
    all += hanging(section, site, plan.farm) + line_at(section, site, plan.farm, depths, 0.0, true);
  }
  const Spot a = section.at(0.0, range);
  const Spot b = section.at(section.length_m, range);
  const Spot foot = section.at(0.0, lowest);
  all += "<g class=\"bold\">" + words({a.x, 6.0}, "A", 4.0, Anchor::middle) +
         words({b.x, 6.0}, "A′", 4.0, Anchor::middle) + "</g>" +
         dimension({a.x, foot.y + 1.0}, {b.x, foot.y + 1.0}, length_words(section.length_m, data),
                   5.0);
  for (const double share : {0.0, 0.5, 1.0}) {
    const double deep = depth_at(depths, share);
    const Spot at = section.at(share * section.length_m, -deep);
    // Beside the section at its ends, in the water in the middle: off hatch, legs and anchors.
    const double off = share == 0.0 ? -1.0 : share == 1.0 ? 1.0 : 0.0;
    all += std::isnan(deep) ? ""
                            : words({at.x + off, at.y + (off == 0.0 ? -1.2 : 0.8)},
                                    length_words(deep, data), 2.4,
                                    off < 0.0   ? Anchor::end
                                    : off > 0.0 ? Anchor::start
                                                : Anchor::middle);
  }
  const double bottom = foot.y + 12.0;
  all += scale_bar({kLeft, bottom}, section.along) +
         words({kLeft + 66.0, bottom + 1.5},
               page::plain_say("section.scales", scale_words(section.along),
                               scale_words(section.up), fixed(section.along / section.up, 1)),
               2.6);
  return drawing(kBodyWidth, bottom + 9.0, page::plain_say("section.of_site", site.name), all);
}

}  // namespace

Sheet cross_section(const Site& site, const ReportData& data) {
  const Title title{"section.title_a", site.name};
  const std::vector<double> depths = bed(site, data);
  if (std::all_of(depths.begin(), depths.end(), [](double each) { return std::isnan(each); })) {
    return no_sheet(title, "section.no_depth");
  }
  Sheet out = sheet_of(title, data, kLayers);
  out.sources.push_back(page::label("paper.gear_of_the_plan"));
  Section section;
  out.drawings = draw(site, data, depths, section) +
                 key_map(site, data, "key-section-" + site.name, 70.0, 42.0);
  const FarmPlan& farm = data.plan->farm;
  const double clear = site.depth_min_m + gear_sinks_to_m(farm, data.plan->depth.lowest_tide_m) -
                       farm.line_depth_m - farm.sag_m - farm.hang_m;
  out.notes =
      legend(legend_row(line_swatch({0.5, ""}), page::say("section.longline_at_low_water")) +
             legend_row(line_swatch({0.3, "1.5 1"}), page::say("section.the_same_at_high_water")) +
             legend_row(line_swatch({0.3, ".9 .6"}), page::say("section.anchor_leg")) +
             legend_row(swatch(kBed), page::say("section.bed"))) +
      page::element("p", page::text(page::plain_say(
                             farm.fixed_line ? "section.figures_fixed" : "section.figures_floats",
                             length_words(farm.line_depth_m, data), length_words(farm.sag_m, data),
                             length_words(farm.hang_m, data), length_words(clear, data),
                             length_words(farm.clearance_m, data),
                             length_words(data.plan->depth.tidal_range_m, data),
                             length_words(data.plan->depth.lowest_tide_m, data)))) +
      page::element("p", page::say("section.highest_tide", room())) +
      page::element("p", page::say("section.anchors"));
  return out;
}

}  // namespace tidelot::sheet
