// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <limits>

#include "criteria/scanline.hpp"
#include "sites/measure.hpp"

namespace tidelot {
namespace {

bool any_contains(const Shape& shape, XY p) {
  return std::any_of(shape.polygons.begin(), shape.polygons.end(),
                     [&](const Polygon& polygon) { return contains(polygon, p); });
}

/// Nearest points of a rectangle and the shapes of a rule; infinitely far without shapes. A polygon
/// about the centre is at the centre.
NearestPoints nearest_of(const Rectangle& rectangle, const ClosedLayer& layer) {
  NearestPoints best{std::numeric_limits<double>::infinity(), {}, {}};
  for (const Feature& feature : layer.features) {
    if (any_contains(feature.shape, rectangle.centre())) {
      return {0.0, rectangle.centre(), rectangle.centre()};
    }
    for_each_edge(feature.shape, [&](XY a, XY b) {
      const NearestPoints nearest = nearest_points(rectangle, a, b);
      if (nearest.distance_m < best.distance_m) {
        best = nearest;
      }
    });
  }
  return best;
}

RuleDistance measured(int rule, const Rectangle& rectangle, const NearestPoints& nearest,
                      Projector& grid_to_lonlat, const Geodesy& geodesy) {
  std::array<XY, 3> points{nearest.on_rectangle, nearest.on_segment, rectangle.centre()};
  grid_to_lonlat.forward(points);
  const LonLat edge{points[0].x, points[0].y};
  const LonLat shape{points[1].x, points[1].y};
  const LonLat centre{points[2].x, points[2].y};
  return {rule, nearest.distance_m > 0.0 ? geodesy.distance_m(edge, shape) : 0.0,
          centre == shape ? 0.0 : geodesy.azimuth_deg(centre, shape), shape};
}

}  // namespace

std::vector<RuleDistance> rule_distances(const Rectangle& rectangle,
                                         std::span<const ClosedLayer> closed,
                                         Projector& grid_to_lonlat, const Geodesy& geodesy) {
  std::vector<RuleDistance> distances;
  for (std::size_t rule = 0; rule < closed.size(); ++rule) {
    const NearestPoints nearest = nearest_of(rectangle, closed[rule]);
    if (std::isfinite(nearest.distance_m)) {
      distances.push_back(
          measured(static_cast<int>(rule), rectangle, nearest, grid_to_lonlat, geodesy));
    }
  }
  std::stable_sort(
      distances.begin(), distances.end(),
      [](const RuleDistance& a, const RuleDistance& b) { return a.distance_m < b.distance_m; });
  return distances;
}

std::vector<RuleDistance> rules_around(XY place, std::span<const ClosedLayer> closed,
                                       Projector& grid_to_lonlat, const Geodesy& geodesy) {
  return rule_distances(Rectangle(place, 0.0, {}), closed, grid_to_lonlat, geodesy);
}

}  // namespace tidelot
