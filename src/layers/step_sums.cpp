// SPDX-License-Identifier: Apache-2.0
#include "step_sums.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidelot {
namespace {

constexpr float kNan = std::numeric_limits<float>::quiet_NaN();
constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::min();

std::size_t day_node(std::int64_t day) {
  return static_cast<std::size_t>(((day - 1) % kDaysPerYear + kDaysPerYear) % kDaysPerYear);
}

}  // namespace

NodeSums::NodeSums(YearNodes nodes, bool closed, std::size_t pixels)
    : nodes_(nodes),
      closed_(closed),
      pixels_(pixels),
      sum_(pixels, 0.0),
      count_(pixels, 0),
      total_(pixels * static_cast<std::size_t>(count_of(nodes)), 0.0),
      years_(total_.size(), 0) {
  if (nodes == YearNodes::days) {
    last_.resize(pixels);
    first_.resize(pixels);
    last_day_.assign(pixels, kNever);
    first_day_.assign(pixels, kNever);
  }
}

void NodeSums::add(const TimeStep& step, std::span<const double> values) {
  const bool same = nodes_ == YearNodes::days
                        ? common_number(step) == common_number(group_)
                        : step.year == group_.year && step.month == group_.month;
  if (begun_ && !same) {
    end_group();
  }
  group_ = step;
  begun_ = true;
  for (std::size_t i = 0; i < pixels_; ++i) {
    if (!std::isnan(values[i])) {
      sum_[i] += values[i];
      ++count_[i];
    }
  }
}

void NodeSums::put(std::size_t node, std::size_t pixel, double value) {
  total_[node * pixels_ + pixel] += value;
  ++years_[node * pixels_ + pixel];
}

void NodeSums::end_month(std::size_t pixel, double mean) {
  put(nodes_ == YearNodes::one ? 0 : static_cast<std::size_t>(group_.month), pixel, mean);
}

void NodeSums::end_day(std::size_t pixel, double mean, std::int64_t day) {
  const std::int64_t before = last_day_[pixel];
  if (before != kNever && day - before <= kLongestGap) {
    const double rise = (mean - last_[pixel]) / static_cast<double>(day - before);
    for (std::int64_t d = before + 1; d < day; ++d) {
      put(day_node(d), pixel, last_[pixel] + rise * static_cast<double>(d - before));
    }
  }
  if (first_day_[pixel] == kNever) {
    first_day_[pixel] = day;
    first_[pixel] = mean;
  }
  last_day_[pixel] = day;
  last_[pixel] = mean;
}

void NodeSums::end_group() {
  for (std::size_t i = 0; i < pixels_; ++i) {
    if (count_[i] == 0) {
      continue;
    }
    const double mean = sum_[i] / count_[i];
    if (nodes_ == YearNodes::days) {
      end_day(i, mean, common_number(group_));
      put(day_node(common_number(group_)), i, mean);
    } else {
      end_month(i, mean);
    }
    sum_[i] = 0.0;
    count_[i] = 0;
  }
}

std::vector<float> NodeSums::finish() {
  end_group();
  for (std::size_t i = 0; closed_ && nodes_ == YearNodes::days && i < pixels_; ++i) {
    if (first_day_[i] != kNever && first_day_[i] + kDaysPerYear > last_day_[i]) {
      end_day(i, first_[i], first_day_[i] + kDaysPerYear);
    }
  }
  std::vector<float> means(total_.size());
  for (std::size_t k = 0; k < means.size(); ++k) {
    means[k] = years_[k] > 0 ? static_cast<float>(total_[k] / years_[k]) : kNan;
  }
  return means;
}

void AxisSums::add(std::size_t pixel, double east, double north) {
  Sums& s = sums_[pixel];
  ++s.count;
  s.east += east;
  s.north += north;
  s.east_east += east * east;
  s.north_north += north * north;
  s.east_north += east * north;
}

std::vector<float> AxisSums::finish() const {
  std::vector<float> axis(2 * sums_.size(), kNan);
  for (std::size_t i = 0; i < sums_.size(); ++i) {
    const Sums& s = sums_[i];
    const double n = std::max(1, s.count);
    const double difference =
        (s.east_east - s.east * s.east / n) - (s.north_north - s.north * s.north / n);
    const double twice = 2.0 * (s.east_north - s.east * s.north / n);
    const double length = std::hypot(difference, twice);
    if (length > 1e-12 * (s.east_east + s.north_north)) {
      axis[i] = static_cast<float>(difference / length);
      axis[sums_.size() + i] = static_cast<float>(twice / length);
    }
  }
  return axis;
}

}  // namespace tidelot
