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
  std::size_t index = 0;
  std::uint16_t months = 0;
  Tree edges;

  [[nodiscard]] bool holds_in(std::uint16_t season) const {
    return months == 0 || (months & season) != 0;
  }
  [[nodiscard]] double shortfall(const SiteBox& box) const {
    double worst = 0.0;
    const auto near = bgi::intersects(box_of(box));
    for (auto edge = edges.qbegin(near); edge != edges.qend(); ++edge) {
      const auto& [a, b, reach_m] = edge->second;
      const double missing = reach_m - nearest_points(box, a, b).distance_m;
      worst = missing > kEdge ? std::max(worst, missing) : worst;
    }
    return worst;
  }
};

Setbacks::Setbacks(std::span<const ClosedLayer> closed, double scale) {
  for (std::size_t i = 0; i < closed.size(); ++i) {
    if (closed[i].plan.closes()) {
      rules_.push_back({i, closed[i].plan.months, Tree(entries_of(closed[i], scale))});
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
