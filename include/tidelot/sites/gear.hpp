// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/geodesy.hpp"

namespace tidelot {

class Projector;
struct Site;

/// A point of the gear: in the grid's system, and in degrees rounded to 6 decimals as printed.
struct GearPoint {
  XY xy;
  LonLat at;
};

/// One longline, anchor to anchor: anchors[0], ends[0], ends[1], anchors[1] lie on one straight
/// line. Between the ends it is grown.
struct GearLine {
  std::array<GearPoint, 2> ends;
  std::array<GearPoint, 2> anchors;
};

/// A buoy on the lease boundary.
struct Marker {
  enum class Kind { corner, intermediate } kind = Kind::corner;
  GearPoint point;
};

/// Where everything of a site's layout lies. Empty where the site holds no line, but for the
/// markers.
struct Gear {
  XY middle;  ///< of the rectangle in which the layout lies, in the grid's system
  std::array<GearPoint, 4> box{};  ///< the gear box: that rectangle less its margins; clockwise
  double box_length_m = 0.0;       ///< along the lines; 0: no gear
  double box_width_m = 0.0;        ///< 0 for a single line: the box has no area
  double box_area_ha = 0.0;        ///< on the ellipsoid, of its corners as printed
  std::vector<GearLine> lines;     ///< from the right of the long side's bearing to the left
  std::vector<Marker> markers;     ///< round the boundary from the first corner, as the corners run
  std::array<GearPoint, 2> section{};  ///< A and A': along the lines through the middle, from end
                                       ///< to end of that rectangle
};

/// Places what the site's layout holds. centre: of the rectangle in which the layout lies, that is
/// site.size long and wide at site.angle_deg, in the grid's metres. Lines lie side by side about
/// its middle, anchors on the gear box's short sides; markers on the boundary (site.corners), each
/// side parted evenly so that no gap between printed positions is longer than marker_gap_m.
[[nodiscard]] Gear farm_gear(const Site& site, XY centre, const FarmPlan& farm, double marker_gap_m,
                             Projector& grid_to_lonlat, const Geodesy& geodesy);

}  // namespace tidelot
