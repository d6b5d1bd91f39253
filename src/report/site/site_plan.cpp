// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/parts.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

/// The plan view of a site, north of the grid up, drawn in pixels of a fixed sheet.
namespace tidelot::page {
namespace {

constexpr double kWidth = 300.0;
constexpr double kHeight = 250.0;
constexpr double kDrawn = 176.0;  ///< pixels for the longer side of the site's box

struct Drawing {
  XY middle;           ///< of the site, grid metres
  double scale = 1.0;  ///< pixels a metre of the grid
};

XY to_paper(const Drawing& drawing, XY p) {
  return {kWidth / 2 + (p.x - drawing.middle.x) * drawing.scale,
          kHeight / 2 - 8.0 - (p.y - drawing.middle.y) * drawing.scale};
}

Drawing drawing_of(const Site& site) {
  XY low = site.corners_xy[0];
  XY high = low;
  for (const XY& corner : site.corners_xy) {
    low = {std::min(low.x, corner.x), std::min(low.y, corner.y)};
    high = {std::max(high.x, corner.x), std::max(high.y, corner.y)};
  }
  const double side = std::max({high.x - low.x, high.y - low.y, 1.0});
  return {{(low.x + high.x) / 2, (low.y + high.y) / 2}, kDrawn / side};
}

std::string segment(const Drawing& drawing, std::string_view kind, XY a, XY b) {
  const XY from = to_paper(drawing, a);
  const XY to = to_paper(drawing, b);
  return fmt::format("<path class=\"{}\" d=\"M{} {}L{} {}\"/>", kind, fixed(from.x, 2),
                     fixed(from.y, 2), fixed(to.x, 2), fixed(to.y, 2));
}

/// Of every longline the grown middle, and the anchor legs at both ends.
std::string longlines(const Drawing& drawing, const Gear& gear) {
  std::string all;
  for (const GearLine& line : gear.lines) {
    all += segment(drawing, "leg", line.anchors[0].xy, line.ends[0].xy) +
           segment(drawing, "leg", line.ends[1].xy, line.anchors[1].xy) +
           segment(drawing, "line", line.ends[0].xy, line.ends[1].xy);
  }
  return all;
}

std::string boundary(const Drawing& drawing, const Site& site) {
  std::string all;
  for (std::size_t i = 0; i < site.corners_xy.size(); ++i) {
    all += segment(drawing, "boundary", site.corners_xy[i],
                   site.corners_xy[(i + 1) % site.corners_xy.size()]);
  }
  return all;
}

/// C1 to C4, moved outward from the middle.
std::string corner_labels(const Drawing& drawing, const Site& site) {
  std::string all;
  const XY middle = to_paper(drawing, drawing.middle);
  for (std::size_t i = 0; i < site.corners_xy.size(); ++i) {
    const XY at = to_paper(drawing, site.corners_xy[i]);
    const double reach = std::max(1.0, std::hypot(at.x - middle.x, at.y - middle.y));
    all += fmt::format("<text text-anchor=\"middle\" x=\"{}\" y=\"{}\">C{}</text>",
                       fixed(at.x + (at.x - middle.x) / reach * 15.0, 1),
                       fixed(at.y + (at.y - middle.y) / reach * 15.0 + 4.0, 1), i + 1);
  }
  return all;
}

/// The largest of 1, 2, 5 times a power of ten metres that fits 90 pixels.
std::string scale_bar(const Drawing& drawing, double grid_scale, Units units) {
  const double pixels_a_m = drawing.scale * grid_scale;
  const double most = 90.0 / pixels_a_m;
  const double power = std::pow(10.0, std::floor(std::log10(most)));
  const double m = most >= 5.0 * power ? 5.0 * power : most >= 2.0 * power ? 2.0 * power : power;
  return fmt::format(
      "<path class=\"bar\" d=\"M12 {0}v5h{1}v-5\"/><text x=\"12\" y=\"{2}\">{3}</text>",
      kHeight - 24.0, fixed(m * pixels_a_m, 2), kHeight - 4.0, in_line(length(m, 0), units));
}

std::string north(double convergence_deg) {
  return fmt::format(
      "<g class=\"north\" transform=\"translate({} 40) rotate({})\"><path class=\"full\" "
      "d=\"M0 -20L0 7L-7 13Z\"/><path class=\"hollow\" d=\"M0 -20L7 13L0 7Z\"/><text "
      "text-anchor=\"middle\" y=\"-23\">{}</text></g>",
      kWidth - 20.0, fixed(convergence_deg, 2), say("map.north"));
}

}  // namespace

std::string site_plan(const Site& site, const ReportData& data) {
  const Drawing drawing = drawing_of(site);
  const std::string svg = element(
      fmt::format("svg class=\"site-plan\" viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\"",
                  kWidth, kHeight, label("site.plan_view_boundary_and_longlines")),
      longlines(drawing, site.gear) + boundary(drawing, site) + corner_labels(drawing, site) +
          scale_bar(drawing, data.grid_scale, data.plan->report.units) +
          north(data.grid_convergence_deg));
  return element("figure",
                 svg + element("figcaption", label("site.plan_view_boundary_longlines_heavy")));
}

}  // namespace tidelot::page
