// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "gdal_support.hpp"
#include "input_file.hpp"

namespace tidelot::geoio {

/// GeoJSON is WGS 84 where it states nothing (RFC 7946, section 4; its "crs" is of the draft of
/// 2008). GDAL takes a "crs" that it cannot read for WGS 84, too: Error(input) there.
void refuse_unread_reference(const InputFile& input, GDALDataset& dataset);

}  // namespace tidelot::geoio
