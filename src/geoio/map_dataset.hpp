// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>

#include "gdal_support.hpp"
#include "map_writer_parts.hpp"

namespace tidelot::geoio {

/// A map as GDAL reads it to write a file: every cell is made as it stands in the file when GDAL
/// asks for it, so that nothing of the grid's size is copied. Its overviews are halved until one
/// tile holds the whole map. They take the nearest cell: every value in them is one of the map's (a
/// mean of dates, codes or closed and open water is none), and nodata neither spreads nor shrinks.
/// All outlive it.
[[nodiscard]] DatasetHandle map_dataset(const Grid& grid, const MapFile& map,
                                        std::span<const StoredBand> bands);

}  // namespace tidelot::geoio
