// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <span>

#include "tidelot/core/calendar.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// Where a day stands between two mid-months: value = (1 - weight) nodes[month] +
/// weight nodes[(month + 1) % 12]. Day J is taken at its noon, J - 0.5.
struct DayPosition {
  int month = 0;
  float weight = 0.0F;
};

/// Positions of days 1..365 (index 0 is 1 January).
[[nodiscard]] const std::array<DayPosition, kDaysPerYear>& day_positions();

/// Turns twelve monthly means into twelve mid-month nodes.
///
/// Daily::linear: the nodes are the means. Daily::mean: nodes whose daily series, joined by
/// straight lines, has exactly the given monthly means (Killworth 1996, J. Phys. Oceanogr.
/// 26:1141-1154). The nodes are a fixed linear map of the means; matrix()[i][j] is the weight of
/// mean j in node i.
class MonthlyNodes {
 public:
  using Matrix = std::array<std::array<double, kMonths>, kMonths>;
  explicit MonthlyNodes(SeasonPlan::Daily method);
  /// Are the nodes the means themselves?
  [[nodiscard]] bool are_means() const { return are_means_; }
  [[nodiscard]] const Matrix& matrix() const { return matrix_; }
  [[nodiscard]] std::array<double, kMonths> operator()(
      const std::array<double, kMonths>& means) const;

 private:
  Matrix matrix_;
  bool are_means_;
};

/// Value on a day of the year (wraps) from twelve mid-month nodes, or from 365, which are the days'
/// values themselves. This and the functions below take either.
[[nodiscard]] double daily_value(std::span<const double> nodes, DayOfYear day);

/// The same for what cannot be below 0: salinity, attenuation, nitrogen, current, radiation. Nodes
/// that keep a month's mean may overshoot where months differ much; the value is then 0. NaN stays.
[[nodiscard]] double clamped_daily(std::span<const double> nodes, DayOfYear day);

/// The weight of each of twelve nodes in the mean of daily_value over the days first to last
/// (counted on beyond 365, at most three years): the daily series is linear in its nodes.
[[nodiscard]] std::array<double, kMonths> mean_weights(DayOfYear first, DayOfYear last);

/// Mean of daily_value over the days first to last; of twelve nodes by their weights.
[[nodiscard]] double daily_mean(std::span<const double> nodes, DayOfYear first, DayOfYear last);

/// The same of clamped_daily.
[[nodiscard]] double clamped_daily_mean(std::span<const double> nodes, DayOfYear first,
                                        DayOfYear last);

}  // namespace tidelot
