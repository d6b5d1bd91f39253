// SPDX-License-Identifier: Apache-2.0
#include "report/maps/map_range.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidelot::page {
namespace {

/// The smallest of 1, 2, 2.5, 5 times a power of ten that is not below the value; the value > 0.
double round_up(double value) {
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double step : {1.0, 2.0, 2.5, 5.0}) {
    if (value <= step * power * (1.0 + 1e-9)) {
      return step * power;
    }
  }
  return 10.0 * power;
}

}  // namespace

Range range_of(std::span<const float> values) {
  Range range{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  for (const float value : values) {
    if (!std::isnan(value)) {
      range.low = std::min<double>(range.low, value);
      range.high = std::max<double>(range.high, value);
    }
  }
  return range.low <= range.high ? range : Range{};
}

Range round_range(std::span<const float> values, double factor) {
  const Range range = range_of(values);
  return {range.low < 0.0 ? -round_up(-range.low * factor) / factor : 0.0,
          range.high > 0.0 ? round_up(range.high * factor) / factor : 0.0};
}

int decimals_for(double span) { return span >= 50.0 ? 0 : span >= 5.0 ? 1 : span >= 0.5 ? 2 : 3; }

}  // namespace tidelot::page
