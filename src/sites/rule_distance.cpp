// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "sites/measure.hpp"
#include "sites/nearest.hpp"

namespace tidelot {
namespace {

/// A shape of a rule as seen from a site.
struct Nearest {
  NearestPoints points{std::numeric_limits<double>::infinity(), {}, {}};
  double setback_m = 0.0;
  [[nodiscard]] double spare_m() const { return points.distance_m - setback_m; }
};

/// The nearest shape of a rule, and of those that caution the one that a site comes nearest to
/// missing.
struct Around {
  Nearest nearest;
  Nearest asking;
};

/// Over all shapes of a rule; infinitely far without shapes.
Around look_around(const SiteBox& box, const ClosedLayer& layer) {
  Around around;
  for (const Feature& feature : layer.features) {
    const Nearest here{nearest_of(box, feature.shape), feature.setback_m};
    if (here.points.distance_m < around.nearest.points.distance_m) {
      around.nearest = here;
    }
    const bool asks = layer.plan.caution || feature.standing != Standing::closed;
    if (asks && here.spare_m() < around.asking.spare_m()) {
      around.asking = here;
    }
  }
  return around;
}

RuleDistance measured(int rule, const SiteBox& box, const Around& around, Projector& grid_to_lonlat,
                      const Geodesy& geodesy) {
  const NearestPoints& nearest = around.nearest.points;
  std::array<XY, 1> point{nearest.on_segment};
  grid_to_lonlat.forward(point);
  const bool asked = std::isfinite(around.asking.points.distance_m);
  const bool cautioned = asked && true_distance_m(around.asking.points, grid_to_lonlat, geodesy) <=
                                      around.asking.setback_m;
  return {rule,
          true_distance_m(nearest, grid_to_lonlat, geodesy),
          bearing_from_centre(box, nearest.on_segment, grid_to_lonlat, geodesy),
          {point[0].x, point[0].y},
          around.nearest.setback_m,
          cautioned};
}

}  // namespace

std::vector<RuleDistance> rule_distances(const SiteBox& box, std::span<const ClosedLayer> closed,
                                         Projector& grid_to_lonlat, const Geodesy& geodesy) {
  std::vector<RuleDistance> distances;
  for (std::size_t rule = 0; rule < closed.size(); ++rule) {
    const Around around = look_around(box, closed[rule]);
    if (std::isfinite(around.nearest.points.distance_m)) {
      distances.push_back(measured(static_cast<int>(rule), box, around, grid_to_lonlat, geodesy));
    }
  }
  std::stable_sort(
      distances.begin(), distances.end(),
      [](const RuleDistance& a, const RuleDistance& b) { return a.distance_m < b.distance_m; });
  return distances;
}

std::vector<RuleDistance> rules_around(XY place, std::span<const ClosedLayer> closed,
                                       Projector& grid_to_lonlat, const Geodesy& geodesy) {
  return rule_distances(SiteBox(place, 0.0, {}), closed, grid_to_lonlat, geodesy);
}

}  // namespace tidelot
