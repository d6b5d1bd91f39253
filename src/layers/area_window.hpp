// SPDX-License-Identifier: Apache-2.0
// Which part of a raster a grid needs, and what to say when it is none.
#pragma once

#include <optional>
#include <string>

#include "tidelot/core/grid.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/layers/raster_source.hpp"

namespace tidelot {

/// The pixels around the grid's cells.
struct AreaWindow {
  Window window;                 ///< with a margin, inside the raster
  double pixels_per_cell = 1.0;  ///< source pixels in the area of one cell, at the middle
  bool whole_width = false;      ///< the grid lies across the seam of a raster round the earth
};

/// Empty where no cell's centre lies in the raster.
[[nodiscard]] std::optional<AreaWindow> area_window(const Grid& grid, Projector& grid_to_source,
                                                    const RasterInfo& info);

/// The raster that a window cuts out.
[[nodiscard]] RasterInfo cut(const RasterInfo& info, const Window& window, int bands);

/// The raster's box in degrees.
[[nodiscard]] LonLatBox degrees_of(const RasterInfo& info, Projector& source_to_degrees);

/// "it covers 29.9 to 30.1 E, ... : a minus sign looks lost": the rest of the message that a layer
/// does not overlap the area.
[[nodiscard]] std::string no_overlap_text(const LonLatBox& layer, const LonLatBox& area);

}  // namespace tidelot
