// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/layers/raster_source.hpp"

namespace tidelot {

/// Source pixel coordinates (col, row; the centre of the first pixel is 0.5, 0.5) of every cell
/// centre of a tile. Projects a lattice of control points and fills in between bilinearly, with a
/// step so fine that positions stay within 0.01 m of the exact ones (checked at the middles; a tile
/// that cannot be so filled is projected cell by cell, and so are all on a curvilinear raster).
/// Longitudes are wrapped into the raster.
[[nodiscard]] std::vector<XY> source_positions(const Grid& grid, const Tile& tile,
                                               Projector& grid_to_source, const RasterInfo& source);

/// Bilinear values of one band at positions: between the centres of the four pixels around, those
/// without data left out; a value where the weights of the valid ones reach one half, NaN elsewhere
/// and outside the raster (beyond half a pixel from the outermost centres).
void sample_bilinear(RasterSource& source, int band, std::span<const XY> positions,
                     std::span<float> out);

}  // namespace tidelot
