// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "raster_field.hpp"

namespace tidelot {

/// [water.light]: attenuation of PAR, or what it follows from (docs/science/light.md). Throws
/// Error(input), Error(plan).
[[nodiscard]] Field light_field(const Plan& plan, Opening& opening);

}  // namespace tidelot
