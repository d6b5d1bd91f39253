// SPDX-License-Identifier: Apache-2.0
#include "sites/proximity.hpp"

#include <boost/geometry/index/rtree.hpp>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "criteria/scanline.hpp"
#include "sites/boxes.hpp"
#include "sites/nearest.hpp"

namespace tidelot {
namespace {

namespace bgi = boost::geometry::index;

/// An edge of a shape; its box is grown by the distance of the test.
struct Edge {
  XY a, b;
  std::size_t shape = 0;
};
using Entry = std::pair<Box, Edge>;
using Tree = bgi::rtree<Entry, bgi::rstar<16>>;

/// The tree only says where to look: the scale of the grid's middle may be out at its corners.
constexpr double kPlenty = 1.1;

std::vector<Entry> entries_of(const NearLayer& layer, double scale) {
  std::vector<Entry> entries;
  const double reach_m = kPlenty * scale * layer.plan.distance_m;
  for (std::size_t i = 0; i < layer.features.size(); ++i) {
    for_each_edge(layer.features[i].shape, [&](XY a, XY b) {
      entries.emplace_back(grown(box_of(a, b), reach_m), Edge{a, b, i});
    });
  }
  return entries;
}

bool more_than_allowed(const NearPlan& test, std::size_t within) {
  return within > static_cast<std::size_t>(test.count);
}

}  // namespace

struct Proximity::Test {
  const NearLayer* layer = nullptr;
  Tree edges;

  /// Nearest points of every shape of which an edge may lie within the distance, by its place.
  [[nodiscard]] std::map<std::size_t, NearestPoints> around(const SiteBox& box) const {
    std::map<std::size_t, NearestPoints> shapes;
    const auto near = bgi::intersects(box_of(box));
    for (auto entry = edges.qbegin(near); entry != edges.qend(); ++entry) {
      const Edge& edge = entry->second;
      const NearestPoints here = nearest_points(box, edge.a, edge.b);
      const auto [shape, added] = shapes.emplace(edge.shape, here);
      if (!added && here.distance_m < shape->second.distance_m) {
        shape->second = here;
      }
    }
    return shapes;
  }
};

Proximity::Proximity(std::span<const NearLayer> near, double scale, Projector& grid_to_lonlat,
                     const Geodesy& geodesy)
    : grid_to_lonlat_(grid_to_lonlat), geodesy_(geodesy) {
  for (const NearLayer& layer : near) {
    if (layer.plan.closes) {
      tests_.push_back({&layer, Tree(entries_of(layer, scale))});
    }
  }
}

Proximity::~Proximity() = default;

bool Proximity::allows(const SiteBox& box) const {
  for (const Test& test : tests_) {
    const std::map<std::size_t, NearestPoints> around = test.around(box);
    const NearPlan& plan = test.layer->plan;
    std::size_t within = 0;
    for (std::size_t i = 0; i < test.layer->features.size(); ++i) {
      const auto edge = around.find(i);
      const bool by_edge = edge != around.end() && true_distance_m(edge->second, grid_to_lonlat_,
                                                                   geodesy_) <= plan.distance_m;
      within += by_edge || any_contains(test.layer->features[i].shape, box.centre()) ? 1 : 0;
      if (more_than_allowed(plan, within)) {
        return false;
      }
    }
  }
  return true;
}

std::vector<ShapesNear> shapes_near(const SiteBox& box, std::span<const NearLayer> near,
                                    Projector& grid_to_lonlat, const Geodesy& geodesy) {
  std::vector<ShapesNear> found;
  for (const NearLayer& layer : near) {
    ShapesNear here;
    here.test = static_cast<int>(found.size());
    XY nearest;
    for (const Feature& feature : layer.features) {
      const NearestPoints points = nearest_of(box, feature.shape);
      if (!std::isfinite(points.distance_m)) {
        continue;  // a shape without points
      }
      const double distance = true_distance_m(points, grid_to_lonlat, geodesy);
      here.within += distance <= layer.plan.distance_m ? 1 : 0;
      if (!here.nearest_m || distance < *here.nearest_m) {
        here.nearest_m = distance;
        nearest = points.on_segment;
      }
    }
    here.beyond = more_than_allowed(layer.plan, here.within);
    if (here.nearest_m) {
      here.bearing_deg = bearing_from_centre(box, nearest, grid_to_lonlat, geodesy);
    }
    found.push_back(here);
  }
  return found;
}

std::vector<ShapesNear> shapes_near(XY place, std::span<const NearLayer> near,
                                    Projector& grid_to_lonlat, const Geodesy& geodesy) {
  return shapes_near(SiteBox(place, 0.0, {}), near, grid_to_lonlat, geodesy);
}

}  // namespace tidelot
