// SPDX-License-Identifier: Apache-2.0
// From soundings, a mesh or charted areas to a field over the grid.
#pragma once

#include <optional>

#include "raster_field.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot {

/// Takes what the opener read, checks unit, overlap and range, and adds its report, its warnings
/// and its file. longest_edge_m bounds the triangles between points; where it is not given, it is
/// five times their median edge, which is said. Throws Error(input), Error(plan).
[[nodiscard]] FileField scatter_field(const RasterWish& wish, Scatter scatter,
                                      std::optional<double> longest_edge_m, Opening& opening);

}  // namespace tidelot
