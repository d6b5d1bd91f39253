// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/wind.hpp"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace tidelot {

double wind_at_10m(double wind, double height_m) {
  return wind * std::pow(10.0 / height_m, 1.0 / 7.0);
}

double gumbel_return_speed(std::span<const double> yearly_maxima, double years) {
  const auto n = static_cast<double>(yearly_maxima.size());
  if (yearly_maxima.size() < 2) {
    throw std::invalid_argument("two yearly maxima at least are needed");
  }
  double mean = 0.0;
  for (const double each : yearly_maxima) {
    mean += each / n;
  }
  double squares = 0.0;
  for (const double each : yearly_maxima) {
    squares += (each - mean) * (each - mean);
  }
  const double spread = std::sqrt(squares / (n - 1.0)) * std::sqrt(6.0) / std::numbers::pi;
  return mean - std::numbers::egamma * spread + spread * std::log(years);
}

}  // namespace tidelot
