// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>

/// Numbers that the reference and the tile kernel share.
namespace tidelot {

/// Three-point Gauss-Legendre on 0..1: 0.5 and 0.5 +- 0.5 sqrt(0.6), weights 5/18, 8/18, 5/18.
inline constexpr double kGaussOuter = 0.38729833462074168852;  // 0.5 sqrt(0.6)
inline constexpr std::array<double, 3> kGaussNodes{0.5 - kGaussOuter, 0.5, 0.5 + kGaussOuter};
inline constexpr std::array<double, 3> kGaussWeights{5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};

/// Light over that of noon at the nodes of half the day: sin(pi/2 node).
inline constexpr std::array<double, 3> kDayLight{0.1761081130682607, 0.7071067811865475,
                                                 0.9843708307906816};

/// Nitrogen's molar mass, g/mmol.
inline constexpr double kNitrogenPerMillimole = 14.007e-3;

/// Nitrogen's molar mass, g/umol, times the hours of a day: umol g-1 h-1 -> g g-1 d-1.
inline constexpr double kNitrogenPerDay = 14.007e-6 * 24.0;

}  // namespace tidelot
