// SPDX-License-Identifier: Apache-2.0
// Wind by its height above the sea and by how seldom it blows.
#pragma once

#include <span>

namespace tidelot {

/// Wind at 10 m from wind at height_m above the sea, same unit: the one-seventh power law (U.S.
/// Army Coastal Engineering Research Center 1984, Shore Protection Manual, eq. 3-26; from memory).
[[nodiscard]] double wind_at_10m(double wind, double height_m);

/// Speeds exceeded once in so many years from yearly maxima: Gumbel's distribution by moments, mode
/// + spread x ln(years) (Gumbel 1958, Statistics of Extremes; years as the mean time between
/// exceedances, Langbein 1949), spread = sd sqrt(6)/pi, mode = mean - 0.57722 spread. Two maxima at
/// least, else std::invalid_argument.
[[nodiscard]] double gumbel_return_speed(std::span<const double> yearly_maxima, double years);

}  // namespace tidelot
