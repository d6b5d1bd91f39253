// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "run/area.hpp"

namespace tidelot::run {

/// Closing bits of the plan's rules over the whole grid (caution rules close nothing).
[[nodiscard]] std::vector<std::uint32_t> rule_bits(const Area& area);

/// The way over water from the landing to every cell, true metres; empty without a landing.
/// Error(plan) when the landing lies outside the area.
[[nodiscard]] std::vector<float> landing_distance(const Plan& plan, Area& area);

/// Does a criterion look at the distance to the landing?
[[nodiscard]] bool scores_access(const Plan& plan);

}  // namespace tidelot::run
