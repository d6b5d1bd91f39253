// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "gdal_support.hpp"
#include "input_file.hpp"

namespace tidelot::geoio {

/// Opens the file and, in it, the variable (NetCDF) or table (GeoPackage) that the plan names. Only
/// formats that cannot point to other data are allowed, whatever the file is called.
/// Throws Error(input): not readable, or several variables and none named, or no such variable.
[[nodiscard]] DatasetHandle open_raster_dataset(const InputFile& input);

/// The NetCDF variable of an open dataset, "" of other formats.
[[nodiscard]] std::string variable_of(GDALDataset& dataset);

/// Can it be opened as a raster? A text of points counts only where its points fill a lattice to
/// the half and no column is named.
[[nodiscard]] bool opens_as_raster(const InputFile& input);

}  // namespace tidelot::geoio
