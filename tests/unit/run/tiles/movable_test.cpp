// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/movable.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidelot;

namespace {

/// A closing rule with a setback, a caution, one without a setback, one by shape, and a near test.
run::Rules rules() {
  run::Rules out;
  out.plan.closed.resize(4);
  out.plan.closed[0].name = "channel";
  out.plan.closed[0].setback_m = 40.0;
  out.plan.closed[1].caution = true;
  out.plan.closed[1].setback_m = 300.0;
  out.plan.closed[3].name = "pipes";
  out.plan.closed[3].setback_field = "keep_off";
  for (const ClosedPlan& rule : out.plan.closed) {
    out.closed.push_back({rule, {Feature{}}, ""});
    out.closed.back().features[0].setback_m = rule.setback_m;
  }
  out.closed[3].features[0].setback_m = 12.0;
  NearPlan test;
  test.name = "beach";
  test.distance_m = 100.0;
  test.closes = true;
  out.plan.near.push_back(test);
  out.near.push_back({test, {}});
  out.plan.farm.max_depth_m = 20.0;
  return out;
}

}  // namespace

TEST_CASE("what closes water or sites can be moved, what cautions or is 0 cannot", "[run]") {
  const auto all = run::movables(rules());
  std::vector<std::string> keys;
  for (const auto& each : all) {
    keys.push_back(each.key);
  }
  CHECK(keys == std::vector<std::string>{"farm.clearance_m", "farm.max_depth_m",
                                         "closed[0].setback_m", "closed[3].setback_field",
                                         "near[0].distance_m", "sites.min_suitability"});
  CHECK(std::isnan(all[3].value));
  CHECK_FALSE(all[1].more_closes);
  CHECK(all[2].more_closes);
}

TEST_CASE("one thing alone is moved", "[run]") {
  const run::Rules before = rules();
  const auto all = run::movables(before);
  const run::Rules setback = run::with_moved(before, all[2], 1.25);
  CHECK(setback.closed[0].features[0].setback_m == 50.0);
  CHECK(setback.plan.closed[0].setback_m == 50.0);
  CHECK(setback.closed[3].features[0].setback_m == 12.0);
  CHECK(setback.plan.farm.clearance_m == before.plan.farm.clearance_m);
  CHECK(run::with_moved(before, all[3], 0.75).closed[3].features[0].setback_m == 9.0);
  CHECK(run::with_moved(before, all[1], 0.75).plan.farm.max_depth_m == 15.0);
  CHECK(run::with_moved(before, all[4], 1.25).near[0].plan.distance_m == 125.0);
}

TEST_CASE("a suitability is not moved beyond 1", "[run]") {
  run::Rules high = rules();
  high.plan.sites.min_suitability = 0.9;
  const auto all = run::movables(high);
  CHECK(run::moved_value(all.back(), 1.25) == 1.0);
  CHECK(run::with_moved(high, all.back(), 1.25).plan.sites.min_suitability == 1.0);
}
