// SPDX-License-Identifier: Apache-2.0
// The axis along which the current runs to and fro. It is sampled by the cosine and the sine of
// twice its angle (counted from east to north): 10 and 190 degrees are one axis, and the mean of 1
// and 179 is 0.
#pragma once

#include <variant>
#include <vector>

#include "field.hpp"
#include "raster_field.hpp"

namespace tidelot {

/// A field of two nodes from one bearing (degrees from true north) or a raster of bearings.
/// Throws Error(input), Error(plan).
[[nodiscard]] Field axis_of_direction(const std::variant<double, FileRef>& direction,
                                      Opening& opening);

/// Bearings of the axis in a tile's cells, 0 to 180 degrees from true north; NaN where not known.
[[nodiscard]] std::vector<float> axis_bearings(Field& axis, TileSampler& sampler);

}  // namespace tidelot
