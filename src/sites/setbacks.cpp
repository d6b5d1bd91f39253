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

/// An edge of a shape.
struct Edge {
  XY a, b;
  std::size_t feature = 0;  ///< of the layer
};

/// Where an edge lies, for the tree.
struct BoxOfEdge {
  using result_type = Box;
  [[nodiscard]] Box operator()(const Edge& edge) const { return box_of(edge.a, edge.b); }
};

using Tree = bgi::rtree<Edge, bgi::rstar<16>, BoxOfEdge, bgi::equal_to<Edge>>;

constexpr double kEdge = 1e-6;  // m

bool keeps_distance(const Feature& feature) {
  return feature.standing == Standing::closed && feature.setback_m > 0.0;
}

std::vector<Edge> edges_of(const ClosedLayer& layer) {
  std::vector<Edge> edges;
  for (std::size_t f = 0; f < layer.features.size(); ++f) {
    if (keeps_distance(layer.features[f])) {
      for_each_edge(layer.features[f].shape, [&](XY a, XY b) { edges.push_back({a, b, f}); });
    }
  }
  return edges;
}

}  // namespace

struct SetbackEdges::Rule {
  std::size_t index = 0;  ///< in the plan
  Tree edges;
};

SetbackEdges::SetbackEdges(std::span<const ClosedLayer> closed) {
  for (std::size_t i = 0; i < closed.size(); ++i) {
    if (closed[i].plan.closes()) {
      rules_.push_back({i, Tree(edges_of(closed[i]))});
    }
  }
}

SetbackEdges::~SetbackEdges() = default;

struct Setbacks::Rule {
  std::size_t index = 0;
  std::uint16_t months = 0;
  const Tree* edges = nullptr;
  std::vector<double> reach_m;  ///< of each feature, in the grid's metres
  double widest_m = 0.0;

  [[nodiscard]] bool holds_in(std::uint16_t season) const {
    return months == 0 || (months & season) != 0;
  }
  [[nodiscard]] double shortfall(const SiteBox& box) const {
    double worst = 0.0;
    const auto near = bgi::intersects(grown(box_of(box), widest_m));
    for (auto edge = edges->qbegin(near); edge != edges->qend(); ++edge) {
      const double missing =
          reach_m[edge->feature] - nearest_points(box, edge->a, edge->b).distance_m;
      worst = missing > kEdge ? std::max(worst, missing) : worst;
    }
    return worst;
  }
};

Setbacks::Setbacks(const SetbackEdges& edges, std::span<const ClosedLayer> closed, double scale) {
  for (const SetbackEdges::Rule& rule : edges.rules_) {
    const ClosedLayer& layer = closed[rule.index];
    Rule& added = rules_.emplace_back(Rule{rule.index, layer.plan.months, &rule.edges, {}, 0.0});
    for (const Feature& feature : layer.features) {
      added.reach_m.push_back(keeps_distance(feature) ? feature.setback_m * scale : 0.0);
      added.widest_m = std::max(added.widest_m, added.reach_m.back());
    }
  }
}

Setbacks::~Setbacks() = default;

double Setbacks::shortfall(const SiteBox& box, std::uint16_t season) const {
  double worst = 0.0;
  for (const Rule& rule : rules_) {
    worst = rule.holds_in(season) ? std::max(worst, rule.shortfall(box)) : worst;
  }
  return worst;
}

std::vector<Setbacks::Broken> Setbacks::broken(const SiteBox& box, std::uint16_t season) const {
  std::vector<Broken> all;
  for (const Rule& rule : rules_) {
    const double missing = rule.holds_in(season) ? rule.shortfall(box) : 0.0;
    if (missing > 0.0) {
      all.push_back({rule.index, missing});
    }
  }
  return all;
}

}  // namespace tidelot
