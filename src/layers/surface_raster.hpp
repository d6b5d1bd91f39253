// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>

#include "spread.hpp"
#include "tidelot/layers/raster_source.hpp"

namespace tidelot {

/// Twelve surfaces on a lattice of blocks of block x block cells as a raster of twelve bands. A
/// block without a value stays without, but for those that the outermost cells of a block with one
/// need: a cell near the corner of a block of three cells or more would else fall below half of the
/// weights of the four blocks around it.
[[nodiscard]] std::unique_ptr<MemoryRaster> surface_raster(const Surfaces& surfaces,
                                                           const Grid& lattice, int block);

}  // namespace tidelot
