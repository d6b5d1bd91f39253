// SPDX-License-Identifier: Apache-2.0
// What run.json and the JSON of check have in common.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot::run {

[[nodiscard]] nlohmann::ordered_json grid_json(const Grid& grid, const std::string& crs_name);
[[nodiscard]] nlohmann::ordered_json layers_json(const std::vector<LayerReport>& reports);

/// [field]: what was asked for, and each property's residuals (reading less layer) with what became
/// of the layer; null without [field].
[[nodiscard]] nlohmann::ordered_json field_json(const Plan& plan, const FieldChecks& checks);

}  // namespace tidelot::run
