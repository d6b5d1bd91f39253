// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <limits>
#include <string>
#include <vector>

#include "support/flat_earth.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::test {

/// Scored maps in memory, good water everywhere at first, for tests of placing.
struct ScoredBay {
  Plan plan;
  Grid grid;
  std::vector<float> suitability, yield, nitrogen, depth, outplant, last_haul, harvests, landing;
  std::vector<float> axis;  ///< empty: nothing says
  std::vector<std::uint32_t> closed;
  std::vector<std::uint8_t> reasons;
  std::vector<ClosedLayer> rules;
  std::vector<NearLayer> near;
  const WaveMaps* waves = nullptr;
  double scale = 1.0;

  ScoredBay(int cols, int rows, double cell_m)
      : grid{1000.0, 5000.0, cell_m, cols, rows, "EPSG:32626"} {
    const std::size_t n = grid.size();
    suitability.assign(n, 0.8F);
    yield.assign(n, 2.0F);
    nitrogen.assign(n, 5.0F);
    depth.assign(n, 6.0F);
    outplant.assign(n, 130.0F);
    last_haul.assign(n, 300.0F);
    harvests.assign(n, 9.0F);
    closed.assign(n, 0U);
    reasons.assign(n, reason::kTooShallow);
    plan.depth.tidal_range_m = 2.1;
    plan.sites.gap_m = 50.0;
    plan.sites.count = 3;
  }
  /// Land, or closed by the first rule, or not known.
  void set_land(std::size_t i) { set(i, kClosedNotWater, reason::kLand); }
  void set_closed(std::size_t i) {
    set(i, 1U << 8U, reason::kFirstRule);
    suitability[i] = 0.0F;
  }
  void set_depth_unknown(std::size_t i) {
    set(i, kClosedUnknown, reason::kDepthUnknown);
    depth[i] = std::numeric_limits<float>::quiet_NaN();
  }
  void set_salinity_unknown(std::size_t i) { set(i, 0U, reason::kSalinityUnknown); }
  /// A rule, with its cells closed unless it is a caution.
  void add_rule(const std::string& name, Shape shape, double setback_m, bool caution = false) {
    ClosedPlan rule;
    rule.name = name;
    rule.setback_m = setback_m;
    rule.caution = caution;
    plan.closed.push_back(rule);
    rules.push_back({rule, {{std::move(shape), ""}}, ""});
    rules.back().features[0].setback_m = setback_m;
    if (!caution) {
      std::vector<std::uint32_t> mask(grid.size(), 0U);
      mark_closed(grid, rules.back().features, Standing::closed, scale, 8, mask);
      for (std::size_t i = 0; i < mask.size(); ++i) {
        if (mask[i] != 0) {
          set_closed(i);
        }
      }
    }
  }
  /// A [[near]] test of points.
  void add_near(const std::string& name, const std::vector<XY>& points, double distance_m,
                int count, bool closes) {
    NearPlan test;
    test.name = name;
    test.distance_m = distance_m;
    test.count = count;
    test.closes = closes;
    plan.near.push_back(test);
    near.push_back({test, {}});
    for (const XY point : points) {
      near.back().features.push_back({Shape{{}, {}, {point}}, ""});
    }
  }
  [[nodiscard]] ScoredMaps maps() const {
    return {suitability, yield,    nitrogen, depth, closed, reasons, outplant,
            last_haul,   harvests, landing,  {},    axis,   {},      waves};
  }
  [[nodiscard]] SitesResult place() const {
    twins::FunctionProjector projector = flat_projector(scale);
    const auto names = reason_names(plan);
    return place_sites(plan, grid, maps(), rules, near, names, projector, FlatGeodesy{});
  }

 private:
  void set(std::size_t i, std::uint32_t code, std::uint8_t why) {
    closed[i] = code;
    reasons[i] = why;
    suitability[i] = std::numeric_limits<float>::quiet_NaN();
  }
};

}  // namespace tidelot::test
