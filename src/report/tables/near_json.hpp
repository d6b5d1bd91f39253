// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <span>

#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::page {

/// What the [[near]] tests found, one object each, distances to 0.1 m.
[[nodiscard]] nlohmann::ordered_json near_json(std::span<const ShapesNear> near, const Plan& plan);

}  // namespace tidelot::page
