// SPDX-License-Identifier: Apache-2.0
// From places to surfaces: inverse-distance weighting through the water.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "tidelot/core/calendar.hpp"
#include "tidelot/core/water_distance.hpp"

namespace tidelot {

/// One place's monthly means, NaN where it has none, and its cell of the lattice.
struct PlaceMeans {
  std::size_t cell = 0;
  std::array<double, kMonths> mean{};
};

/// How weights fall with distance: (d^2 + nugget^2)^(-power/2).
struct Falloff {
  double power = 2.0;
  double nugget_m = 50.0;
};

/// Leaving out each place in turn: predicted from the others less measured.
struct LeftOut {
  int count = 0;
  double rmse = 0.0;
  double bias = 0.0;
};

struct Surfaces {
  std::array<std::vector<float>, kMonths> month;  ///< a value a cell, NaN where no place is reached
  std::array<bool, kMonths> filled{};             ///< no place had a value: from the months around
  std::array<LeftOut, kMonths> left_out;
  LeftOut all;  ///< over the months together
};

/// Distances are those over the water of the lattice between the centres of cells (water_distance).
/// A month in which no place has a value lies on the line, in months, between the months before and
/// after that have one, December being followed by January. At least one place has a value.
/// Equation and bounds: docs/science/stations.md.
[[nodiscard]] Surfaces spread(const Waterway& way, std::span<const PlaceMeans> places,
                              const Falloff& falloff);

}  // namespace tidelot
