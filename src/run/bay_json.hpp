// SPDX-License-Identifier: Apache-2.0
// A bay as run.json keeps it.
#pragma once

#include <nlohmann/json.hpp>

#include "tidelot/report/bay.hpp"

namespace tidelot::run {

[[nodiscard]] nlohmann::ordered_json bay_json(const Bay& bay);
/// The same bay again, to the last digit. Throws nlohmann's exceptions where something is missing
/// or of another kind.
[[nodiscard]] Bay bay_from(const nlohmann::ordered_json& json);

}  // namespace tidelot::run
