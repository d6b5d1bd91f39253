// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "tidelot/core/grid.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// The bounds in degrees, or the box of the outline where the plan gives none.
[[nodiscard]] LonLatBox bounds_of(const Plan& plan, Opener& opener);

/// The grid over bounds. Throws Error(plan).
[[nodiscard]] Grid grid_over(const AreaPlan& area, const LonLatBox& bounds, Opener& opener);

/// The box of a whole grid in degrees, grown by a distance on each side.
[[nodiscard]] LonLatBox degrees_around(const Grid& grid, Projector& grid_to_degrees, double metres);

}  // namespace tidelot
