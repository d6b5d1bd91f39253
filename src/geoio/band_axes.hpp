// SPDX-License-Identifier: Apache-2.0
// The axes along which the bands of a NetCDF variable run: time and depth.
#pragma once

#include <string>

#include "input_file.hpp"
#include "tidelot/layers/raster_source.hpp"

namespace tidelot::geoio {

/// Fills steps, climatology, years, times, levels_m, levels_basis and steps_fastest. A step lies at
/// the middle of its bounds where it has them (CF conventions 7.1), else at its own value. Throws
/// Error(input) where bands run along anything but time and depth, where an axis is not understood,
/// and where rows or columns run along time.
void read_band_axes(const InputFile& input, const std::string& variable, RasterInfo& info);

/// Fills curves of a raster of info.cols x info.rows pixels from the variables of longitude and
/// latitude. Throws Error(input).
void read_curves(const InputFile& input, const std::string& lon, const std::string& lat,
                 RasterInfo& info);

}  // namespace tidelot::geoio
