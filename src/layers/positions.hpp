// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/layers/raster_source.hpp"

namespace tidelot {

/// Pixel coordinates of points of the grid's system, each one projected; source_positions without
/// its lattice.
[[nodiscard]] std::vector<XY> exact_positions(std::span<const XY> points, Projector& grid_to_source,
                                              const RasterInfo& source);

}  // namespace tidelot
