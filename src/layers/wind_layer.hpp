// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "raster_field.hpp"
#include "tidelot/layers/wind_rose.hpp"

namespace tidelot {

/// Reads the table of [waves] winds, and reports on it. Throws Error(input).
[[nodiscard]] WindRose read_winds(const WavesPlan& plan, Opening& opening);

}  // namespace tidelot
