// SPDX-License-Identifier: Apache-2.0
#include "sites/setbacks.hpp"

#include <algorithm>
#include <boost/geometry/geometries/box.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/index/rtree.hpp>
#include <utility>
#include <vector>

#include "criteria/scanline.hpp"

namespace tidelot {
namespace {

namespace bgi = boost::geometry::index;
using Point = boost::geometry::model::d2::point_xy<double>;
using Box = boost::geometry::model::box<Point>;

/// An edge of a shape and how far a site must stay from it.
struct Edge {
  XY a, b;
  double reach_m = 0.0;
};
using Entry = std::pair<Box, Edge>;
using Tree = bgi::rtree<Entry, bgi::rstar<16>>;

constexpr double kEdge = 1e-6;  // m

Box box_of(XY a, XY b, double grown) {
  return {Point(std::min(a.x, b.x) - grown, std::min(a.y, b.y) - grown),
          Point(std::max(a.x, b.x) + grown, std::max(a.y, b.y) + grown)};
}

Box box_of(const Rectangle& rectangle, double grown) {
  XY low = rectangle.corners()[0];
  XY high = low;
  for (const XY corner : rectangle.corners()) {
    low = {std::min(low.x, corner.x), std::min(low.y, corner.y)};
    high = {std::max(high.x, corner.x), std::max(high.y, corner.y)};
  }
  return box_of(low, high, grown);
}

std::vector<Entry> entries_of(const ClosedLayer& layer, double scale) {
  std::vector<Entry> entries;
  for (const Feature& feature : layer.features) {
    if (feature.standing == Standing::closed && feature.setback_m > 0.0) {
      const double reach = feature.setback_m * scale;
      for_each_edge(feature.shape, [&](XY a, XY b) {
        entries.emplace_back(box_of(a, b, reach), Edge{a, b, reach});
      });
    }
  }
  return entries;
}

}  // namespace

struct Setbacks::Rule {
  std::uint16_t months = 0;
  Tree edges;
};

Setbacks::Setbacks(std::span<const ClosedLayer> closed, double scale) {
  for (const ClosedLayer& layer : closed) {
    if (layer.plan.closes()) {
      rules_.push_back({layer.plan.months, Tree(entries_of(layer, scale))});
    }
  }
}

Setbacks::~Setbacks() = default;

bool Setbacks::kept_by(const Rectangle& rectangle, std::uint16_t season) const {
  for (const Rule& rule : rules_) {
    if (rule.months != 0 && (rule.months & season) == 0) {
      continue;
    }
    const auto near = bgi::intersects(box_of(rectangle, 0.0));
    for (auto edge = rule.edges.qbegin(near); edge != rule.edges.qend(); ++edge) {
      const auto& [a, b, reach_m] = edge->second;
      if (nearest_points(rectangle, a, b).distance_m < reach_m - kEdge) {
        return false;
      }
    }
  }
  return true;
}

}  // namespace tidelot
