// SPDX-License-Identifier: Apache-2.0
// The working lattice on which distances through the water are found.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/core/water_distance.hpp"

namespace tidelot {

/// Depth at low water of the cells of a tile, m.
using DepthOfTile = std::function<std::vector<float>(const Tile&)>;

/// Cells a side of the blocks that make a lattice of at most about max_cells.
[[nodiscard]] int block_for(const Grid& grid, std::size_t max_cells);

/// The grid in blocks of block x block cells. A block is water where any of its cells is; what
/// stands for it is the largest stretch of water in it that hangs together by sides. One can go
/// from a block to the next where these stretches touch, so every way on the lattice is one on the
/// grid's water: it never crosses land, however thin.
[[nodiscard]] Waterway water_lattice(const Grid& grid, int block, const DepthOfTile& depth);

}  // namespace tidelot
