// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "run/tiles/maps.hpp"
#include "tidelot/report/map_writer.hpp"

namespace tidelot::run {

/// The files of maps/ with their units, descriptions and tables.
[[nodiscard]] std::vector<MapFile> map_files(const Maps& maps, const Plan& plan);

/// Counts over the grid, in row order.
[[nodiscard]] RunCounts count(const Maps& maps, const Grid& grid, double areal_scale);

}  // namespace tidelot::run
