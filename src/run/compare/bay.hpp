// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "tidelot/report/bay.hpp"
#include "tidelot/run.hpp"

namespace tidelot::run {

/// What a run found, as far as bays are compared by it.
/// areal_scale: grid area over ground area; members: of the water and the best site's place.
[[nodiscard]] Bay bay_of(const Plan& plan, double areal_scale, const RunSummary& summary,
                         BayMembers members);

/// True hectares of a grid's cells, member by member.
[[nodiscard]] std::vector<double> hectares(const std::vector<std::size_t>& cells, double cell_ha);

}  // namespace tidelot::run
