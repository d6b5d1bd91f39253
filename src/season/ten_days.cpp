// SPDX-License-Identifier: Apache-2.0
#include "season/ten_days.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "tidelot/season/daily.hpp"

namespace tidelot {
namespace {

constexpr int kDays = 10;

/// mean = node[month] + second (node[month + 1] - node[month]) + third (node[month + 2] -
/// node[month]): equal nodes give their value to the last bit.
struct Weights {
  int month = 0;
  double second = 0.0;
  double third = 0.0;
  int days_before = 0;  ///< days next before this one with the same month
  int days_after = 0;   ///< and next after
};

int wrapped(int day) {
  return day < 1 ? day + kDaysPerYear : (day > kDaysPerYear ? day - kDaysPerYear : day);
}

Weights weights_of(DayOfYear day) {
  const auto at = [&](int back) {
    return day_positions()[static_cast<std::size_t>(wrapped(day - back) - 1)];
  };
  Weights weights{at(kDays - 1).month};
  for (int back = 0; back < kDays; ++back) {
    const DayPosition position = at(back);
    const double weight = static_cast<double>(position.weight) / kDays;
    if (position.month == weights.month) {
      weights.second += weight;
    } else {
      weights.second += 1.0 / kDays - weight;
      weights.third += weight;
    }
  }
  return weights;
}

const Weights& weights(int day) {
  static const auto kTable = [] {
    std::array<Weights, kDaysPerYear> table{};
    for (DayOfYear d = 1; d <= kDaysPerYear; ++d) {
      table[static_cast<std::size_t>(d - 1)] = weights_of(d);
    }
    const auto alike = [&](int a, int b) {
      return table[static_cast<std::size_t>(wrapped(a) - 1)].month ==
             table[static_cast<std::size_t>(wrapped(b) - 1)].month;
    };
    for (DayOfYear d = 1; d <= kDaysPerYear; ++d) {
      Weights& w = table[static_cast<std::size_t>(d - 1)];
      while (alike(d, d - w.days_before - 1)) {
        ++w.days_before;
      }
      while (alike(d, d + w.days_after + 1)) {
        ++w.days_after;
      }
    }
    return table;
  }();
  return kTable[static_cast<std::size_t>(wrapped(day) - 1)];
}

}  // namespace

TenDayMeans::TenDayMeans(std::span<const float, kMonths> nodes) : nodes_{} {
  std::copy(nodes.begin(), nodes.end(), nodes_.begin());
  nodes_[kMonths] = nodes_[0];
  nodes_[kMonths + 1] = nodes_[1];
}

double TenDayMeans::mean(int day) const {
  const Weights& w = weights(day);
  const double* node = &nodes_[static_cast<std::size_t>(w.month)];
  return node[0] + w.second * (node[1] - node[0]) + w.third * (node[2] - node[0]);
}

DayOfYear TenDayMeans::warmest_day() const {
  // Between two mid-months the mean runs straight once all its days lie there, so it is greatest in
  // the ten days after a mid-month that is no colder than its neighbours, and no warmer than it.
  DayOfYear warmest = 1;
  double greatest = mean(1);
  for (int month = 0; month < kMonths; ++month) {
    const auto here = static_cast<std::size_t>(month);
    const double before = nodes_[here == 0 ? kMonths - 1 : here - 1];
    if (!(nodes_[here] > greatest) || nodes_[here] < before || nodes_[here] < nodes_[here + 1]) {
      continue;
    }
    const int first = static_cast<int>(std::floor(middle_of_month(month)));
    for (int day = first; day <= first + kDays + 1; ++day) {
      if (mean(day) > greatest) {
        greatest = mean(day);
        warmest = wrapped(day);
      }
    }
  }
  return warmest;
}

bool TenDayMeans::nodes_reach(int month, double threshold) const {
  const double* node = &nodes_[static_cast<std::size_t>(month)];
  return node[0] >= threshold && node[1] >= threshold && node[2] >= threshold;
}

int TenDayMeans::warm_run(DayOfYear day, int step, double threshold) const {
  int run = 0;
  while (run < kDaysPerYear - 1) {
    const int next = day + step * (run + 1);
    const Weights& w = weights(next);
    if (nodes_reach(w.month, threshold)) {
      run += 1 + (step < 0 ? w.days_before : w.days_after);
    } else if (mean(next) >= threshold) {
      ++run;
    } else {
      return run;
    }
  }
  return kDaysPerYear - 1;
}

}  // namespace tidelot
