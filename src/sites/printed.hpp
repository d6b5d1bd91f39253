// SPDX-License-Identifier: Apache-2.0
// Positions as printed.
#pragma once

#include <array>

#include "tidelot/layers/opener.hpp"
#include "tidelot/sites/positions.hpp"

namespace tidelot {

/// A position of the grid as printed.
[[nodiscard]] inline LonLat printed(XY place, Projector& grid_to_lonlat) {
  std::array<XY, 1> point{place};
  grid_to_lonlat.forward(point);
  return printed_position({point[0].x, point[0].y});
}

}  // namespace tidelot
