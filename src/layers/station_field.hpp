// SPDX-License-Identifier: Apache-2.0
// From a table of stations named in the plan to twelve surfaces over the grid.
#pragma once

#include <optional>

#include "raster_field.hpp"
#include "spread.hpp"
#include "station_table.hpp"

namespace tidelot {

/// Reads the table, spreads each month through the water, and gives the result as a raster of
/// twelve bands that is sampled like any other. error: the plan's, in its unit. Adds report,
/// warnings and files. Throws Error(input), Error(plan).
[[nodiscard]] Field open_station_field(const StationWish& wish, std::optional<double> error,
                                       Opening& opening);

/// Twelve surfaces on a lattice of blocks of cells as a field; its raster's lattice is added to
/// opening.lattices.
[[nodiscard]] Field field_of(const Surfaces& surfaces, const Grid& lattice, int block,
                             Opening& opening);

}  // namespace tidelot
