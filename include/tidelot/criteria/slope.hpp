// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot {

/// Slope of the bed, degrees from level, grid.size() values from as many depths (m, down): Horn's
/// third-order finite difference over the eight neighbours (Horn 1981, Proc. IEEE 69:14-47). NaN
/// where a neighbour, or the cell itself, is not known, and along the edge of the grid. scale: grid
/// length over ground length.
[[nodiscard]] GridVector<float> bed_slope(const Grid& grid, std::span<const float> depth,
                                          double scale);

}  // namespace tidelot
