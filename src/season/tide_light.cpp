// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/tide_light.hpp"

#include <cmath>
#include <span>

namespace tidelot {
namespace {

double polynomial(std::span<const double> coefficients, double x) {
  double sum = 0.0;
  for (auto c = coefficients.rbegin(); c != coefficients.rend(); ++c) {
    sum = sum * x + *c;
  }
  return sum;
}

}  // namespace

double tide_light(double attenuation, double tide_m) {
  const double x = attenuation * tide_m / 2.0;
  if (!(x > 0.0)) {
    return 1.0;
  }
  if (x <= kBesselSplit) {
    const double t = x / kBesselSplit;
    return std::exp(-x) * polynomial(kBesselNear, t * t);
  }
  return polynomial(kBesselFar, kBesselSplit / x) / std::sqrt(x);
}

}  // namespace tidelot
