// SPDX-License-Identifier: Apache-2.0
// The layers of shapes: the outline, the land, the closed areas, what should not lie near.
#pragma once

#include <vector>

#include "land_mask.hpp"
#include "outline_mask.hpp"
#include "raster_field.hpp"

namespace tidelot {

/// [area] outline; holds every cell where the plan has none. Throws Error(input) when it holds
/// none.
[[nodiscard]] OutlineMask read_outline(const AreaPlan& area, Projector& grid_to_degrees,
                                       Opening& opening);

/// [land]: polygons, and lines that close. Throws Error(input) for anything else.
[[nodiscard]] LandMask read_land(const LandPlan& land, Projector& grid_to_degrees,
                                 Opening& opening);

/// Every [[closed]] table with its shapes in and around the area.
[[nodiscard]] std::vector<ClosedLayer> read_closed(const Plan& plan, Projector& grid_to_degrees,
                                                   Opening& opening);

/// Every [[near]] table with its shapes in and around the area.
[[nodiscard]] std::vector<NearLayer> read_near(const Plan& plan, Projector& grid_to_degrees,
                                               Opening& opening);

/// How far around the area shapes are read, m: beyond a rule's setback or a test's distance, too,
/// as a site's distance to the nearest one is told although nothing follows from it.
[[nodiscard]] double reach_m(const ClosedPlan& rule);
[[nodiscard]] double reach_m(const NearPlan& test);

}  // namespace tidelot
