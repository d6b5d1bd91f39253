// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <limits>
#include <vector>

#include "tidelot/sites/sites.hpp"

namespace tidelot::test {

/// A plan with a title, a rule that closes and one that cautions: what the site files need of it.
inline Plan sample_plan() {
  Plan plan;
  plan.title = "Heron Bight, \"summer\" & <autumn>";
  ClosedPlan rule;
  rule.name = "eelgrass beds";
  ClosedPlan warning;
  warning.name = "mooring field";
  warning.caution = true;
  plan.closed = {rule, warning};
  return plan;
}

/// A site with every optional figure.
inline Site full_site() {
  Site site;
  site.rank = 1;
  site.name = "S01";
  site.centre = {-30.05, 41.03};
  site.corners = {LonLat{-30.051, 41.0305}, LonLat{-30.049, 41.0304}, LonLat{-30.0491, 41.0295},
                  LonLat{-30.0511, 41.0296}};
  site.area_ha = 1.20034;
  site.angle_deg = 15.0;
  site.size = {189.73666, 63.2455};
  site.suitability = 0.8125;
  site.yield_t = 4.75;
  site.yield_without_t = 4.8;
  site.nitrogen_without_kg = 21.75;
  site.draw_down = tidelot::DrawDown{0.97, 4000.0, 22.5};
  site.nitrogen_kg = 21.5;
  site.with_neighbours = tidelot::WithNeighbours{4.7, 21.1, {"S02", "S05"}};
  site.depth_min_m = 5.25;
  site.depth_max_m = 7.5;
  site.outplant = 135;
  site.last_haul = 288;
  site.harvests = 11;
  site.yield_kg_per_m = 3.84771;
  site.nitrogen_g_per_m = 17.41616;
  site.layout.lines = 6;
  site.layout.usable_m = 205.75;
  site.layout.line_m = 1234.5;
  site.layout.bundles = 8230;
  site.landing_km = 2.5;
  site.rules = {RuleDistance{1, 12.0, 0.0, {-30.05, 41.04}},
                RuleDistance{0, 41.25, 90.0, {-30.04, 41.03}}};
  site.cautions = {"mooring field near", "rule not known"};
  site.limited_by = "growth: little light at the line";
  return site;
}

/// A site without landing, rules, cautions, season.
inline Site bare_site() {
  Site site = full_site();
  site.rank = 2;
  site.name = "S02";
  site.outplant = site.last_haul = 0;
  site.harvests = 0;
  site.yield_t = -0.125;
  site.yield_without_t = -0.125;
  site.landing_km.reset();
  site.rules.clear();
  site.cautions.clear();
  site.limited_by.clear();
  return site;
}

/// A site listed apart, with a depth that is not known.
inline Site apart_site() {
  Site site = bare_site();
  site.rank = 1;
  site.name = "A01";
  site.depth_min_m = site.depth_max_m = std::numeric_limits<double>::quiet_NaN();
  site.unknown_share = 0.25;
  return site;
}

}  // namespace tidelot::test
