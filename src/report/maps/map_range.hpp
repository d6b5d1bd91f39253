// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <limits>

#include "tidelot/report/map_ranges.hpp"

/// From where to where the colours of a map run: the same on the page and in other programs.
namespace tidelot::page {

/// The least and the greatest of values that come one by one; NaN (not known) aside.
class RangeSoFar {
 public:
  void add(float value) {
    low_ = value < low_ ? value : low_;
    high_ = value > high_ ? value : high_;
  }
  /// 0 to 1 where there was no value.
  [[nodiscard]] MapRange range() const {
    return low_ <= high_ ? MapRange{static_cast<double>(low_), static_cast<double>(high_)}
                         : MapRange{};
  }

 private:
  float low_ = std::numeric_limits<float>::infinity();
  float high_ = -std::numeric_limits<float>::infinity();
};

/// From 0 (or a number below it) to a number that is round in the unit of the factor, which turns
/// the map's unit into it.
[[nodiscard]] MapRange round_range(MapRange range, double factor);
/// Enough decimals for the steps of a legend over such a span.
[[nodiscard]] int decimals_for(double span);

}  // namespace tidelot::page
