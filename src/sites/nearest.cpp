// SPDX-License-Identifier: Apache-2.0
#include "sites/nearest.hpp"

#include <algorithm>
#include <array>
#include <limits>

#include "criteria/scanline.hpp"

namespace tidelot {

bool any_contains(const Shape& shape, XY p) {
  return std::any_of(shape.polygons.begin(), shape.polygons.end(),
                     [&](const Polygon& polygon) { return contains(polygon, p); });
}

NearestPoints nearest_of(const SiteBox& box, const Shape& shape) {
  NearestPoints best{std::numeric_limits<double>::infinity(), {}, {}};
  if (any_contains(shape, box.centre())) {
    return {0.0, box.centre(), box.centre()};
  }
  for_each_edge(shape, [&](XY a, XY b) {
    const NearestPoints nearest = nearest_points(box, a, b);
    if (nearest.distance_m < best.distance_m) {
      best = nearest;
    }
  });
  return best;
}

double true_distance_m(const NearestPoints& nearest, Projector& grid_to_lonlat,
                       const Geodesy& geodesy) {
  if (!(nearest.distance_m > 0.0)) {
    return 0.0;
  }
  std::array<XY, 2> points{nearest.on_box, nearest.on_segment};
  grid_to_lonlat.forward(points);
  return geodesy.distance_m({points[0].x, points[0].y}, {points[1].x, points[1].y});
}

double bearing_from_centre(const SiteBox& box, XY point, Projector& grid_to_lonlat,
                           const Geodesy& geodesy) {
  std::array<XY, 2> points{box.centre(), point};
  grid_to_lonlat.forward(points);
  const LonLat centre{points[0].x, points[0].y};
  const LonLat there{points[1].x, points[1].y};
  return centre == there ? 0.0 : geodesy.azimuth_deg(centre, there);
}

}  // namespace tidelot
