// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>

#include "tidelot/layers/raster_source.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot::geoio {

/// Opens a raster of an allowed format, read-only, at full resolution. Throws Error(input).
[[nodiscard]] std::unique_ptr<RasterSource> open_raster_file(const FileRef& file,
                                                             const std::string& key);

}  // namespace tidelot::geoio
