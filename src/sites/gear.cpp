// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/gear.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sites/printed.hpp"
#include "sites/site_box.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {
namespace {

constexpr double kSquareMetresPerHectare = 10'000.0;
constexpr double kRounding_m = 0.2;  // two printed positions, each off by 0.08 m at most

/// Where things lie in a rectangle, in true metres from its middle: along the long side, and to the
/// right across it. The grid's scale is that of the place.
class Frame {
 public:
  Frame(XY centre, const Site& site, Projector& grid_to_lonlat, const Geodesy& geodesy)
      : axes_(centre, site.angle_deg),
        grid_to_lonlat_(grid_to_lonlat),
        along_(scale({1.0, 0.0}, site.size.length_m, geodesy)),
        across_(scale({0.0, 1.0}, site.size.width_m, geodesy)) {}

  [[nodiscard]] GearPoint at(double along_m, double across_m) const {
    const XY xy = axes_.on_grid({along_m * along_, across_m * across_});
    return {xy, printed(xy, grid_to_lonlat_)};
  }

 private:
  /// Grid length over ground length in a direction, over a length about the middle.
  [[nodiscard]] double scale(XY way, double length_m, const Geodesy& geodesy) const {
    const double half = std::max(1.0, length_m / 2.0);
    std::array<XY, 2> ends{axes_.on_grid({-way.x * half, -way.y * half}),
                           axes_.on_grid({way.x * half, way.y * half})};
    grid_to_lonlat_.forward(ends);
    return 2.0 * half / geodesy.distance_m({ends[0].x, ends[0].y}, {ends[1].x, ends[1].y});
  }

  Axes axes_;
  Projector& grid_to_lonlat_;
  double along_, across_;
};

void add_box(const Frame& frame, const Site& site, double margin_m, const Geodesy& geodesy,
             Gear& gear) {
  gear.box_length_m = site.size.length_m - 2.0 * margin_m;
  gear.box_width_m = std::max(0.0, site.size.width_m - 2.0 * margin_m);
  const double half = gear.box_length_m / 2.0;
  const double wide = gear.box_width_m / 2.0;
  gear.box = {frame.at(half, -wide), frame.at(half, wide), frame.at(-half, wide),
              frame.at(-half, -wide)};
  std::array<LonLat, 4> ring{};
  std::transform(gear.box.begin(), gear.box.end(), ring.begin(),
                 [](const GearPoint& p) { return p.at; });
  if (gear.box_width_m > 0.0) {
    gear.box_area_ha = geodesy.area_m2(ring) / kSquareMetresPerHectare;
  }
}

void add_lines(const Frame& frame, const Site& site, double gap_m, Gear& gear) {
  const double grown = site.layout.usable_m / 2.0;
  const double anchor = gear.box_length_m / 2.0;
  for (int i = 0; i < site.layout.lines; ++i) {
    const double across = ((site.layout.lines - 1) / 2.0 - i) * gap_m;
    gear.lines.push_back({{frame.at(-grown, across), frame.at(grown, across)},
                          {frame.at(-anchor, across), frame.at(anchor, across)}});
  }
}

XY between(XY a, XY b, double share) {
  return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

/// The corners, and between them as many as keep the gap.
std::vector<Marker> markers_of(const Site& site, double gap_m, Projector& grid_to_lonlat,
                               const Geodesy& geodesy) {
  std::vector<Marker> markers;
  for (std::size_t i = 0; i < site.corners.size(); ++i) {
    const std::size_t next = (i + 1) % site.corners.size();
    const double side = geodesy.distance_m(site.corners[i], site.corners[next]);
    const int parts = side <= gap_m ? 1 : static_cast<int>(std::ceil(side / (gap_m - kRounding_m)));
    markers.push_back({Marker::Kind::corner, {site.corners_xy[i], site.corners[i]}});
    for (int part = 1; part < parts; ++part) {
      const XY xy =
          between(site.corners_xy[i], site.corners_xy[next], static_cast<double>(part) / parts);
      markers.push_back({Marker::Kind::intermediate, {xy, printed(xy, grid_to_lonlat)}});
    }
  }
  return markers;
}

}  // namespace

Gear farm_gear(const Site& site, XY centre, const FarmPlan& farm, double marker_gap_m,
               Projector& grid_to_lonlat, const Geodesy& geodesy) {
  Gear gear;
  gear.middle = centre;
  gear.markers = markers_of(site, marker_gap_m, grid_to_lonlat, geodesy);
  const Frame frame(centre, site, grid_to_lonlat, geodesy);
  gear.section = {frame.at(-site.size.length_m / 2.0, 0.0),
                  frame.at(site.size.length_m / 2.0, 0.0)};
  if (site.layout.lines > 0) {
    add_box(frame, site, farm.margin_m, geodesy, gear);
    add_lines(frame, site, farm.line_gap_m, gear);
  }
  return gear;
}

}  // namespace tidelot
