// SPDX-License-Identifier: Apache-2.0
#include "sites/setbacks.hpp"

#include <algorithm>
#include <boost/geometry/index/rtree.hpp>
#include <utility>
#include <vector>

#include "criteria/scanline.hpp"
#include "sites/boxes.hpp"

namespace tidelot {
namespace {

namespace bgi = boost::geometry::index;

/// An edge of a shape and how far a site must stay from it.
struct Edge {
  XY a, b;
  double reach_m = 0.0;
};
using Entry = std::pair<Box, Edge>;
using Tree = bgi::rtree<Entry, bgi::rstar<16>>;

constexpr double kEdge = 1e-6;  // m

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

double Setbacks::shortfall(const Rectangle& rectangle, std::uint16_t season) const {
  double worst = 0.0;
  const auto near = bgi::intersects(box_of(rectangle));
  for (const Rule& rule : rules_) {
    if (rule.months != 0 && (rule.months & season) == 0) {
      continue;
    }
    for (auto edge = rule.edges.qbegin(near); edge != rule.edges.qend(); ++edge) {
      const auto& [a, b, reach_m] = edge->second;
      const double missing = reach_m - nearest_points(rectangle, a, b).distance_m;
      worst = missing > kEdge ? std::max(worst, missing) : worst;
    }
  }
  return worst;
}

}  // namespace tidelot
