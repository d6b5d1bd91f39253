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

/// The same of the members alone.
[[nodiscard]] nlohmann::ordered_json members_json(const BayMembers& members);
[[nodiscard]] BayMembers members_from(const nlohmann::ordered_json& json);
/// The same of two crops in turn.
[[nodiscard]] nlohmann::ordered_json turn_json(const CropsInTurn& turn);
[[nodiscard]] CropsInTurn turn_from(const nlohmann::ordered_json& json);

}  // namespace tidelot::run
