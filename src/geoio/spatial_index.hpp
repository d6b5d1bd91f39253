// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "gdal_support.hpp"

namespace tidelot::geoio {

/// Does every layer of a GeoPackage have each of its features in its spatial index, in a box that
/// holds it? Programs ask the index for what they draw, and GDAL's triggers leave a feature out of
/// it without a word where memory is short.
[[nodiscard]] bool has_whole_indices(GDALDataset& file);

}  // namespace tidelot::geoio
