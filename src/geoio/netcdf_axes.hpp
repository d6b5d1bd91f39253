// SPDX-License-Identifier: Apache-2.0
// What a NetCDF variable's attributes say beyond GDAL's own reading of them.
#pragma once

#include <gdal_priv.h>

#include <string>
#include <vector>

#include "input_file.hpp"
#include "tidelot/layers/raster_source.hpp"

namespace tidelot::geoio {

/// "" where the attribute is missing.
[[nodiscard]] std::string metadata(GDALMajorObject& object, const std::string& item);

/// Are there axes in degrees_north and degrees_east (CF conventions 4.1, 4.2)?
[[nodiscard]] bool has_degree_axes(GDALDataset& dataset);

/// Both missing_value and _FillValue: GDAL takes only one of them.
[[nodiscard]] std::vector<double> fill_values(GDALDataset& dataset, const std::string& variable);

/// Which way a variable counts: its attribute "positive", else what its CF standard name says
/// (a depth down, an altitude or a height up), else "".
[[nodiscard]] std::string positive_of(const std::string& attribute,
                                      const std::string& standard_name);

}  // namespace tidelot::geoio
