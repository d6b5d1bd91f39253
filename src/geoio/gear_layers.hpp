// SPDX-License-Identifier: Apache-2.0
// The layers of sites.gpkg beside `sites`: where the gear of each site lies.
#pragma once

#include <span>

#include "gdal_support.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::geoio {

/// Adds `gear_box` (polygons), `lines` (grown lengths), `anchors` and `markers` (points), each
/// feature with its site, name and kind, in WGS 84 as printed. False where the file refuses.
[[nodiscard]] bool add_gear_layers(GDALDataset& file, std::span<const Site> sites);

/// Does a file hold them as they were written?
[[nodiscard]] bool same_gear_layers(GDALDataset& file, std::span<const Site> sites);

}  // namespace tidelot::geoio
