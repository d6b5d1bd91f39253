// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <span>

#include "tidelot/core/calendar.hpp"

namespace tidelot {

/// The trailing ten-day mean of a cell's daily temperatures through the year, read straight from
/// the twelve nodes: no day's mean touches more than three of them, and where those three are warm
/// enough a month passes without looking at its days. Days may be a year out either way (-364 to
/// 730).
class TenDayMeans {
 public:
  explicit TenDayMeans(std::span<const float, kMonths> nodes);

  [[nodiscard]] double mean(int day) const;

  /// A day (1..365) from which the warmest run of days at or above the threshold can be walked: the
  /// day of the greatest mean, or one whose mean reaches the threshold in the same run.
  [[nodiscard]] DayOfYear warm_day(double threshold) const;

  /// How many days next before (step -1) or after (step 1) a day have a mean at or above the
  /// threshold without a break; 364 when the whole year has.
  [[nodiscard]] int warm_run(DayOfYear day, int step, double threshold) const;

 private:
  /// Month 0..13; 12 is January again.
  [[nodiscard]] double node(int month) const { return nodes_[static_cast<std::size_t>(month)]; }
  [[nodiscard]] bool is_summer(int month) const;
  [[nodiscard]] DayOfYear warmest_day() const;
  [[nodiscard]] bool nodes_reach(int month, double threshold) const;
  [[nodiscard]] int last_warm(int day, int step, int days, double threshold) const;

  std::array<double, kMonths + 2> nodes_;  ///< January and February once more at the end
};

}  // namespace tidelot
