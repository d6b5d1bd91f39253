// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"

namespace tidelot {

/// Shortest way over water from `from` to every cell centre, m on the grid; NaN where none leads
/// there. depth: at low water, m; water is depth > 0. A start on land begins at the nearest water
/// cell (its distance counted). Any-angle search: a cell is reached straight from its predecessor's
/// predecessor where the line between them stays on water, so lengths are those of taut strings, to
/// within a few per cent. Linear (times log) in the water cells.
[[nodiscard]] std::vector<float> water_distance(const Grid& grid, std::span<const float> depth,
                                                XY from);

}  // namespace tidelot
