// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/whole_grid.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "run/landing.hpp"
#include "tidelot/core/water_distance.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/criterion_kind.hpp"
#include "tidelot/criteria/slope.hpp"

namespace tidelot::run {
namespace {

/// Has a rule that closes a shape of the standing?
bool closes_by(const ClosedLayer& rule, Standing standing) {
  return rule.plan.closes() &&
         std::any_of(rule.features.begin(), rule.features.end(),
                     [&](const Feature& feature) { return feature.standing == standing; });
}

}  // namespace

GridVector<float> whole_depth(const Plan& plan, LayerSet& layers) {
  if (!plan.waves && !plan.sites.landing && !scores(plan, CriterionKind::slope)) {
    return {};
  }
  const Grid& grid = layers.grid();
  GridVector<float> depth(grid.size());
  for (const Tile& tile : tiles_of(grid, tile_side(grid))) {
    const std::vector<float> part = layers.sample_depth(tile);
    for (int row = 0; row < tile.rows; ++row) {
      std::copy_n(
          part.begin() + static_cast<std::ptrdiff_t>(row) * tile.cols, tile.cols,
          depth.begin() + static_cast<std::ptrdiff_t>(grid.index(tile.col0, tile.row0 + row)));
    }
  }
  return depth;
}

GridVector<std::uint32_t> rule_bits(const Area& area, Standing standing) {
  const Grid& grid = area.layers->grid();
  const std::vector<ClosedLayer>& rules = area.layers->closed();
  if (std::none_of(rules.begin(), rules.end(),
                   [&](const ClosedLayer& rule) { return closes_by(rule, standing); })) {
    return {};
  }
  GridVector<std::uint32_t> bits(grid.size());
  int bit = closed_bit::kFirstRule;
  for (const ClosedLayer& rule : rules) {
    if (closes_by(rule, standing)) {
      mark_closed(grid, rule.features, standing, area.scale, bit, bits);
    }
    ++bit;
  }
  return bits;
}

std::vector<MonthRule> month_rules(const Plan& plan) {
  std::vector<MonthRule> rules;
  for (std::size_t i = 0; i < plan.closed.size(); ++i) {
    if (plan.closed[i].months != 0) {
      rules.push_back({1U << (closed_bit::kFirstRule + i), plan.closed[i].months});
    }
  }
  return rules;
}

std::uint32_t out_of_season(std::span<const MonthRule> rules, std::uint16_t season) {
  std::uint32_t out = 0;
  for (const MonthRule& rule : rules) {
    out |= (season & rule.months) == 0 ? rule.bit : 0U;
  }
  return out;
}

GridVector<float> way_over_water(const Area& area, XY from, GridVector<float> depth_low_water,
                                 double least_m) {
  for (float& depth : depth_low_water) {
    depth -= static_cast<float>(least_m);
  }
  GridVector<float> distance = water_distance(Waterway(area.layers->grid(), depth_low_water), from);
  for (float& d : distance) {
    d = static_cast<float>(d / area.scale);
  }
  return distance;
}

GridVector<float> landing_distance(const Plan& plan, Area& area,
                                   GridVector<float> depth_low_water) {
  if (!plan.sites.landing) {
    return {};
  }
  return way_over_water(area, landing_place(plan, area), std::move(depth_low_water),
                        plan.sites.draft_m);
}

GridVector<float> slope_of(const Plan& plan, const Area& area,
                           std::span<const float> depth_low_water) {
  return scores(plan, CriterionKind::slope)
             ? bed_slope(area.layers->grid(), depth_low_water, area.scale)
             : GridVector<float>{};
}

}  // namespace tidelot::run
