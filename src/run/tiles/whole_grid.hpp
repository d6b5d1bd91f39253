// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "run/area.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot::run {

/// Bits of the plan's rules over the whole grid by their shapes of one standing: closed, or not
/// known; empty where there are none. Rules that only caution, or do not apply, have none. Months
/// are not looked at.
[[nodiscard]] GridVector<std::uint32_t> rule_bits(const Area& area, Standing standing);

/// A rule that holds in some months only.
struct MonthRule {
  std::uint32_t bit = 0;     ///< a mask of one bit
  std::uint16_t months = 0;  ///< bit 0 January
};
[[nodiscard]] std::vector<MonthRule> month_rules(const Plan& plan);

/// Bits of the rules that do not meet a season, bit 0 January: a rule of some months holds where it
/// meets the crop's season. Without a season (0) there is nothing to meet; where the season is not
/// known the rules stand, and this is not asked.
[[nodiscard]] std::uint32_t out_of_season(std::span<const MonthRule> rules, std::uint16_t season);

/// Depth at low water of the whole grid, m; empty where neither waves nor slope nor a way to the
/// landing is worked out from it.
[[nodiscard]] GridVector<float> whole_depth(const Plan& plan, LayerSet& layers);

/// The way over water from the landing to every cell, true metres; empty without a landing. Only
/// water deeper at low water than the boat's draft ([sites] draft_m) is a way. Error(plan) when the
/// landing lies outside the area. depth_low_water: grid.size() values, m.
[[nodiscard]] GridVector<float> landing_distance(const Plan& plan, Area& area,
                                                 GridVector<float> depth_low_water);

/// As landing_distance, from a place of the grid over water deeper than `least_m`.
[[nodiscard]] GridVector<float> way_over_water(const Area& area, XY from,
                                               GridVector<float> depth_low_water, double least_m);

/// Slope of the bed, degrees; empty where no criterion looks at it. depth_low_water: grid.size().
[[nodiscard]] GridVector<float> slope_of(const Plan& plan, const Area& area,
                                         std::span<const float> depth_low_water);

}  // namespace tidelot::run
