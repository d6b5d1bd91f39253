// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <gdal_priv.h>

#include "input_file.hpp"

// Formats that hold their own data can still be made to show those of another file, or to ask the
// network: a plan from a stranger could so print what only its reader may read.
namespace tidelot::geoio {

/// Refuses an HDF5 file (NetCDF-4 and BAG are such) whose arrays lie in other files: external
/// storage, virtual arrays, external links. Error(input). Reads the names of all its objects; to be
/// called where no other thread uses the library, in a child process first.
void refuse_hdf5_elsewhere(const InputFile& input);

/// Refuses a dataset that draws on files outside of the folder that the input may not leave, or a
/// GeoPackage with tables that a module makes out of other files. Error(input).
void refuse_elsewhere(const InputFile& input, GDALDataset& dataset);

/// GDAL fetches nothing: not the reference system that a GeoJSON names by an address, nor what a
/// function of a filter asks for. /vsicurl/ goes another way.
void refuse_every_fetch();

/// The address that was asked for on this thread since the last call, "" for none.
[[nodiscard]] std::string refused_fetch();

}  // namespace tidelot::geoio
