// SPDX-License-Identifier: Apache-2.0
#include "season/ten_day_series.hpp"

#include <algorithm>

namespace tidelot {
namespace {

constexpr int kDays = 10;

}  // namespace

TenDaySeries::TenDaySeries(std::span<const float, kDaysPerYear> days) : means_{} {
  for (DayOfYear day = 1; day <= kDaysPerYear; ++day) {
    double sum = 0.0;
    for (int back = 0; back < kDays; ++back) {
      sum += static_cast<double>(days[static_cast<std::size_t>(wrapped_day(day - back) - 1)]);
    }
    means_[static_cast<std::size_t>(day - 1)] = sum / kDays;
  }
}

double TenDaySeries::mean(int day) const {
  return means_[static_cast<std::size_t>(wrapped_day(day) - 1)];
}

DayOfYear TenDaySeries::warm_day(double /*threshold*/) const {
  const auto warmest = std::max_element(means_.begin(), means_.end());
  return static_cast<DayOfYear>(warmest - means_.begin()) + 1;
}

int TenDaySeries::warm_run(DayOfYear day, int step, double threshold) const {
  int run = 0;
  while (run < kDaysPerYear - 1 && mean(day + step * (run + 1)) >= threshold) {
    ++run;
  }
  return run;
}

}  // namespace tidelot
