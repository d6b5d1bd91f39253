// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/seawater.hpp"

#include <algorithm>
#include <cmath>

namespace tidelot {
namespace {

/// a + t (b + t (c + ...)).
template <typename... Rest>
double polynomial(double t, double first, Rest... rest) {
  if constexpr (sizeof...(rest) == 0) {
    return first;
  } else {
    return first + t * polynomial(t, rest...);
  }
}

}  // namespace

double seawater_density(double salinity, double temperature) {
  const double s = std::max(0.0, salinity);
  const double t = temperature;
  const double fresh =
      polynomial(t, 999.842594, 6.793952e-2, -9.095290e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9);
  const double a = polynomial(t, 8.24493e-1, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9);
  const double b = polynomial(t, -5.72466e-3, 1.0227e-4, -1.6546e-6);
  return fresh + s * (a + b * std::sqrt(s) + 4.8314e-4 * s);
}

}  // namespace tidelot
