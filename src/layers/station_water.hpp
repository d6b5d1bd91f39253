// SPDX-License-Identifier: Apache-2.0
// Where stations lie on the water of the area.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "raster_field.hpp"
#include "spread.hpp"
#include "station_means.hpp"
#include "station_table.hpp"

namespace tidelot {

/// The places that count, in one order.
struct Afloat {
  std::vector<StationMeans> places;
  std::vector<PlaceMeans> means;
  std::shared_ptr<const Waterway> way;
  int block = 1;          ///< cells a side of the lattice's blocks
  std::string operation;  ///< that brought the positions into the grid's system
};

/// The lattice on which so many places (at least one) are spread. opening.depth is given.
struct WorkingWater {
  std::shared_ptr<const Waterway> way;
  int block = 1;  ///< cells a side of the lattice's blocks
};
[[nodiscard]] WorkingWater working_water(std::size_t places, Opening& opening);

/// Puts places on the working lattice of the area's water; those farther from it than snap_m are
/// left out with a warning. Throws Error(input) where none is left. opening.depth is given.
[[nodiscard]] Afloat put_afloat(const StationWish& wish, const std::vector<StationMeans>& places,
                                Opening& opening);

/// A warning that names the table.
void warn_of(const StationWish& wish, const std::string& what, Opening& opening);

}  // namespace tidelot
