// SPDX-License-Identifier: Apache-2.0
#include "growth/temperature_fit.hpp"

#include <cmath>
#include <numbers>

namespace tidelot {

TemperatureFit temperature_fit(const std::function<double(double)>& of) {
  constexpr std::size_t n = TemperatureFit().size();
  constexpr double middle = (kFitColdest + kFitWarmest) / 2.0;
  constexpr double half = (kFitWarmest - kFitColdest) / 2.0;
  TemperatureFit chebyshev{};
  for (std::size_t node = 0; node < n; ++node) {
    const double angle = std::numbers::pi * (static_cast<double>(node) + 0.5) / n;
    const double value = of(middle + half * std::cos(angle));
    for (std::size_t j = 0; j < n; ++j) {
      const double share = (j == 0 ? 1.0 : 2.0) / n;
      chebyshev[j] += share * value * std::cos(static_cast<double>(j) * angle);
    }
  }
  // Sum of c_j T_j(x) in powers of x: T_j = 2 x T_(j-1) - T_(j-2).
  TemperatureFit before{1.0};
  TemperatureFit now{0.0, 1.0};
  TemperatureFit out{chebyshev[0], chebyshev[1]};
  for (std::size_t j = 2; j < n; ++j) {
    TemperatureFit next{};
    for (std::size_t power = 0; power < n; ++power) {
      next[power] = (power > 0 ? 2.0 * now[power - 1] : 0.0) - before[power];
      out[power] += chebyshev[j] * next[power];
    }
    before = now;
    now = next;
  }
  return out;
}

}  // namespace tidelot
