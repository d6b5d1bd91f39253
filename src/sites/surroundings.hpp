// SPDX-License-Identifier: Apache-2.0
// Where land, landing and marks lie as seen from a site.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "sites/measure.hpp"
#include "sites/site_box.hpp"

namespace tidelot {

/// From the edge of a box to the edge of the nearest cell of land; none where the map shows none.
/// reason: as in maps/reason.tif, grid.size() values.
[[nodiscard]] std::optional<Shore> shore_of(const SiteBox& box, const Grid& grid,
                                            std::span<const std::uint8_t> reason,
                                            Projector& grid_to_lonlat, const Geodesy& geodesy);

/// Landing, shore and marks, into the site; its centre stands already.
void add_directions(const Survey& survey, const SiteBox& box, Site& site);

}  // namespace tidelot
