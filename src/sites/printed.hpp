// SPDX-License-Identifier: Apache-2.0
// Positions as printed.
#pragma once

#include <array>
#include <cmath>

#include "tidelot/layers/opener.hpp"

namespace tidelot {

inline constexpr double kDecimals = 1e6;  ///< of a printed degree

/// Degrees rounded to 6 decimals.
[[nodiscard]] inline LonLat rounded(XY degrees) {
  const auto six = [](double value) { return std::round(value * kDecimals) / kDecimals; };
  return {six(degrees.x), six(degrees.y)};
}

/// A position of the grid as printed.
[[nodiscard]] inline LonLat printed(XY place, Projector& grid_to_lonlat) {
  std::array<XY, 1> point{place};
  grid_to_lonlat.forward(point);
  return rounded(point[0]);
}

}  // namespace tidelot
