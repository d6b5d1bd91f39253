// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>

/// From where to where the colours of a map run: the same on the page and in other programs.
namespace tidelot::page {

struct Range {
  double low = 0.0;
  double high = 1.0;
};

/// The least and the greatest value; NaN (not known) aside. 0 to 1 where there is none.
[[nodiscard]] Range range_of(std::span<const float> values);
/// From 0 (or a number below it) to a number that is round in the unit of the factor, which turns
/// the map's unit into it.
[[nodiscard]] Range round_range(std::span<const float> values, double factor);
/// Enough decimals for the steps of a legend over such a span.
[[nodiscard]] int decimals_for(double span);

}  // namespace tidelot::page
