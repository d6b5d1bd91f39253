// SPDX-License-Identifier: Apache-2.0
#include "season/ten_days.hpp"

#include <algorithm>

#include "tidelot/season/daily.hpp"

namespace tidelot {
namespace {

constexpr int kDays = 10;

/// mean = node[month] + second (node[month + 1] - node[month]) + third (node[month + 2] -
/// node[month]): equal nodes give their value to the last bit.
struct Weights {
  int month = 0;
  double second = 0.0;
  double third = 0.0;   ///< 0: all ten days lie between two mid-months, the mean runs straight
  int days_before = 0;  ///< days next before this one of the same month, straight or not alike
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

using Table = std::array<Weights, kDaysPerYear>;

const Weights& entry(const Table& table, int day) {
  return table[static_cast<std::size_t>(wrapped(day) - 1)];
}

/// How many days next to a day, step by step, belong to the same stretch.
int days_alike(const Table& table, DayOfYear day, int step) {
  const Weights& here = entry(table, day);
  int days = 0;
  for (;; ++days) {
    const Weights& there = entry(table, day + step * (days + 1));
    if (there.month != here.month || (there.third == 0.0) != (here.third == 0.0)) {
      return days;
    }
  }
}

Table make_table() {
  Table table{};
  for (DayOfYear day = 1; day <= kDaysPerYear; ++day) {
    table[static_cast<std::size_t>(day - 1)] = weights_of(day);
  }
  for (DayOfYear day = 1; day <= kDaysPerYear; ++day) {
    table[static_cast<std::size_t>(day - 1)].days_before = days_alike(table, day, -1);
    table[static_cast<std::size_t>(day - 1)].days_after = days_alike(table, day, 1);
  }
  return table;
}

const Table kTable = make_table();

const Weights& weights(int day) { return entry(kTable, day); }

}  // namespace

TenDayMeans::TenDayMeans(std::span<const float, kMonths> nodes) : nodes_{} {
  std::copy(nodes.begin(), nodes.end(), nodes_.begin());
  nodes_[kMonths] = nodes_[0];
  nodes_[kMonths + 1] = nodes_[1];
}

double TenDayMeans::mean(int day) const {
  const Weights& w = weights(day);
  const double first = node(w.month);
  return first + w.second * (node(w.month + 1) - first) + w.third * (node(w.month + 2) - first);
}

bool TenDayMeans::is_summer(int month) const {
  const double before = node(month == 0 ? kMonths - 1 : month - 1);
  return node(month) >= before && node(month) >= node(month + 1);
}

DayOfYear TenDayMeans::warmest_day() const {
  // The mean turns only where its ten days pass a mid-month, so it is greatest in the ten days
  // after one that is no colder than its neighbours.
  DayOfYear warmest = 1;
  double greatest = mean(1);
  for (int month = 0; month < kMonths; ++month) {
    if (!(node(month) > greatest) || !is_summer(month)) {
      continue;
    }
    const int first = static_cast<int>(middle_of_month(month));
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
  return node(month) >= threshold && node(month + 1) >= threshold && node(month + 2) >= threshold;
}

DayOfYear TenDayMeans::warm_day(double threshold) const {
  const auto top = std::max_element(nodes_.begin(), nodes_.begin() + kMonths);
  const int summer = static_cast<int>(top - nodes_.begin());
  const DayOfYear day = wrapped(static_cast<int>(middle_of_month(summer)) + kDays / 2);
  const double reached = mean(day);
  // No summer can hold a warmer mean than its warmest node.
  bool warmest = reached >= threshold;
  for (int month = 0; month < kMonths && warmest; ++month) {
    warmest = month == summer || !(node(month) > reached && is_summer(month));
  }
  return warmest ? day : warmest_day();
}

/// Of `days` days from `day` on, along which the mean runs straight and the first reaches the
/// threshold: how many do.
int TenDayMeans::last_warm(int day, int step, int days, double threshold) const {
  const double first = mean(day);
  const double last = mean(day + step * (days - 1));
  if (last >= threshold) {
    return days;
  }
  int warm = 1 + static_cast<int>((first - threshold) / (first - last) * (days - 1));
  while (mean(day + step * warm) >= threshold) {  // where rounding took a day away
    ++warm;
  }
  while (mean(day + step * (warm - 1)) < threshold) {  // or added one
    --warm;
  }
  return warm;
}

int TenDayMeans::warm_run(DayOfYear day, int step, double threshold) const {
  int run = 0;
  while (run < kDaysPerYear - 1) {
    const int next = day + step * (run + 1);
    const Weights& w = weights(next);
    const int stretch = 1 + (step < 0 ? w.days_before : w.days_after);
    if (nodes_reach(w.month, threshold)) {
      run += stretch;
      continue;
    }
    if (mean(next) < threshold) {
      return run;
    }
    const bool straight = w.third == 0.0;
    const int warm = straight ? last_warm(next, step, stretch, threshold) : 1;
    run += warm;
    if (straight && warm < stretch) {
      return run;
    }
  }
  return kDaysPerYear - 1;
}

}  // namespace tidelot
