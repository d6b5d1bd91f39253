// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <functional>

namespace tidelot {

/// Temperatures between which a TemperatureFit holds, degC.
inline constexpr double kFitColdest = -4.0;
inline constexpr double kFitWarmest = 45.0;

/// Coefficients of a polynomial in x = -1 (coldest) to 1 (warmest), the constant term first.
using TemperatureFit = std::array<double, 9>;

/// The polynomial through a smooth function of temperature at the Chebyshev nodes.
[[nodiscard]] TemperatureFit temperature_fit(const std::function<double(double)>& of);

}  // namespace tidelot
