// SPDX-License-Identifier: Apache-2.0
// Where land, landing and marks lie as seen from a site.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "sites/measure.hpp"
#include "sites/rectangle.hpp"

namespace tidelot {

/// From a rectangle's edge to the edge of the nearest cell of land; none where the map shows none.
/// reason: as in maps/reason.tif, grid.size() values.
[[nodiscard]] std::optional<Shore> shore_of(const Rectangle& rectangle, const Grid& grid,
                                            std::span<const std::uint8_t> reason,
                                            Projector& grid_to_lonlat, const Geodesy& geodesy);

/// Landing, shore and marks, into the site; its centre stands already.
void add_directions(const Survey& survey, const Rectangle& rectangle, Site& site);

}  // namespace tidelot
