// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>

#include "run/members/member_lattice.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// run.json's account of the members; null without any.
[[nodiscard]] nlohmann::ordered_json spread_json(const Plan& plan, const UncertainInputs* inputs,
                                                 const LatticeCount& lattice,
                                                 const SitesResult& sites);

}  // namespace tidelot::run
