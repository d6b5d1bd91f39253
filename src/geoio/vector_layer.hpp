// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "gdal_support.hpp"
#include "input_file.hpp"

namespace tidelot::geoio {

/// An open vector layer and the dataset that owns it.
struct VectorLayer {
  DatasetHandle dataset;
  OGRLayer* layer = nullptr;
  OGRSpatialReference reference;
  std::string crs_basis;  ///< "" where the file states it all, else one line
};

/// Opens the file and the layer that the plan names; where it names none there must be only one
/// that holds features. Throws Error(input): not readable, several layers, no such layer, no
/// reference system, a GeoPackage with unfinished changes beside it.
[[nodiscard]] VectorLayer open_vector_layer(const InputFile& input);

/// Does the file hold shapes? One that is a raster, too, counts only where the plan's layer is one
/// of shapes.
[[nodiscard]] bool opens_as_shapes(const InputFile& input);

}  // namespace tidelot::geoio
