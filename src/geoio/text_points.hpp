// SPDX-License-Identifier: Apache-2.0
// Soundings as text: x y z a line.
#pragma once

#include <string>

#include "input_file.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot::geoio {

/// By its name's ending: .xyz, .csv, .txt or .dat.
[[nodiscard]] bool is_text_of_points(const InputFile& input);

/// Lines of numbers parted by blanks, tabs, commas or semicolons, after at most one line of names.
/// With names: lon, longitude, x or easting; lat, latitude, y or northing; the plan's field, else
/// depth, z or elevation. Without: the first three. Blank lines and those that begin with # are
/// passed over; a line without a value is left out and counted. Only points in the box are kept.
/// Throws Error(input) naming the line that is not understood, and where no crs is given.
[[nodiscard]] Scatter read_text_points(const InputFile& input, const std::string& crs,
                                       const LonLatBox& box);

}  // namespace tidelot::geoio
