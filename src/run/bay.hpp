// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "tidelot/report/bay.hpp"
#include "tidelot/run.hpp"

namespace tidelot::run {

/// What a run found, as far as bays are compared by it.
/// areal_scale: grid area over ground area.
[[nodiscard]] Bay bay_of(const Plan& plan, double areal_scale, const RunSummary& summary);

}  // namespace tidelot::run
