// SPDX-License-Identifier: Apache-2.0
// A property from wherever the plan takes it.
#pragma once

#include "raster_field.hpp"

namespace tidelot {

/// What a property's file is wanted for.
[[nodiscard]] RasterWish file_wish(const WaterPlan& plan, const FileRef& file,
                                   const Opening& opening);

/// A property from a file, opened as wished.
[[nodiscard]] FileField file_field(const WaterPlan& plan, const RasterWish& wish, Opening& opening);

/// A property from a file, and the axis of a current of two parts. Throws Error(input),
/// Error(plan).
[[nodiscard]] FileField file_field(const WaterPlan& plan, const FileRef& file, Opening& opening);

/// One [water.*] table. Adds report, warnings and files. Throws Error(input), Error(plan).
[[nodiscard]] Field water_field(const WaterPlan& plan, Opening& opening);

}  // namespace tidelot
