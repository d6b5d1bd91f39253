// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <span>

#include "tidelot/core/calendar.hpp"

namespace tidelot {

/// The trailing ten-day mean of a cell's temperatures where they are given day by day; the same
/// questions as TenDayMeans answers. Days may be a year out either way.
class TenDaySeries {
 public:
  explicit TenDaySeries(std::span<const float, kDaysPerYear> days);

  [[nodiscard]] double mean(int day) const;
  /// The day of the greatest mean, the first of equals.
  [[nodiscard]] DayOfYear warm_day(double threshold) const;
  /// How many days next before (step -1) or after (step 1) a day have a mean at or above the
  /// threshold without a break; 364 when the whole year has.
  [[nodiscard]] int warm_run(DayOfYear day, int step, double threshold) const;

 private:
  std::array<double, kDaysPerYear> means_;
};

}  // namespace tidelot
