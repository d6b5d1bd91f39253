// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/daily.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace tidelot {
namespace {

using Matrix = MonthlyNodes::Matrix;

std::size_t next_month(std::size_t month) { return (month + 1) % kMonths; }

DayPosition position(DayOfYear day) {
  const double noon = day - 0.5;
  int month = month_of(day);
  double start = middle_of_month(month);
  if (noon < start) {
    month = (month + kMonths - 1) % kMonths;
    start = middle_of_month(month) - (month == kMonths - 1 ? kDaysPerYear : 0);
  }
  const int after = (month + 1) % kMonths;
  double end = middle_of_month(after);
  end += end < start ? kDaysPerYear : 0;
  return {month, static_cast<float>((noon - start) / (end - start))};
}

Matrix identity() {
  Matrix one{};
  for (std::size_t i = 0; i < kMonths; ++i) {
    one[i][i] = 1.0;
  }
  return one;
}

/// Row i: what each node adds to the mean of month i's daily values.
Matrix means_of_nodes() {
  Matrix means{};
  for (DayOfYear day = 1; day <= kDaysPerYear; ++day) {
    const DayPosition& at = day_positions()[static_cast<std::size_t>(day - 1)];
    const auto month = static_cast<std::size_t>(month_of(day));
    const auto node = static_cast<std::size_t>(at.month);
    means[month][node] += (1.0 - at.weight) / kMonthDays[month];
    means[month][next_month(node)] += static_cast<double>(at.weight) / kMonthDays[month];
  }
  return means;
}

/// Gauss-Jordan. The matrix is strictly dominated by its diagonal, so no pivoting is needed.
Matrix inverse(Matrix a) {
  Matrix out = identity();
  for (std::size_t pivot = 0; pivot < kMonths; ++pivot) {
    const double scale = 1.0 / a[pivot][pivot];
    for (std::size_t j = 0; j < kMonths; ++j) {
      a[pivot][j] *= scale;
      out[pivot][j] *= scale;
    }
    for (std::size_t row = 0; row < kMonths; ++row) {
      const double factor = row == pivot ? 0.0 : a[row][pivot];
      for (std::size_t j = 0; j < kMonths; ++j) {
        a[row][j] -= factor * a[pivot][j];
        out[row][j] -= factor * out[pivot][j];
      }
    }
  }
  return out;
}

/// The weight of each node in a sum of daily values.
using NodeWeights = std::array<double, kMonths>;
constexpr std::size_t kYears = 3;

/// Weights of the sum over days 1 to `day`, 0 to three years.
const NodeWeights& weights_until(DayOfYear day) {
  static const auto kSums = [] {
    std::array<NodeWeights, kYears * kDaysPerYear + 1> sums{};
    for (std::size_t d = 1; d < sums.size(); ++d) {
      const DayPosition& at = day_positions()[(d - 1) % kDaysPerYear];
      const auto node = static_cast<std::size_t>(at.month);
      sums[d] = sums[d - 1];
      sums[d][node] += 1.0 - static_cast<double>(at.weight);
      sums[d][next_month(node)] += static_cast<double>(at.weight);
    }
    return sums;
  }();
  return kSums.at(static_cast<std::size_t>(day));
}

}  // namespace

const std::array<DayPosition, kDaysPerYear>& day_positions() {
  static const auto kPositions = [] {
    std::array<DayPosition, kDaysPerYear> all{};
    for (DayOfYear day = 1; day <= kDaysPerYear; ++day) {
      all[static_cast<std::size_t>(day - 1)] = position(day);
    }
    return all;
  }();
  return kPositions;
}

MonthlyNodes::MonthlyNodes(SeasonPlan::Daily method)
    : matrix_(method == SeasonPlan::Daily::mean ? inverse(means_of_nodes()) : identity()),
      are_means_(method == SeasonPlan::Daily::linear) {}

std::array<double, kMonths> MonthlyNodes::operator()(
    const std::array<double, kMonths>& means) const {
  std::array<double, kMonths> nodes{};
  for (std::size_t i = 0; i < kMonths; ++i) {
    for (std::size_t j = 0; j < kMonths; ++j) {
      nodes[i] += matrix_[i][j] * means[j];
    }
  }
  return nodes;
}

double daily_value(std::span<const double> nodes, DayOfYear day) {
  const int index = wrapped_day(day) - 1;
  if (nodes.size() == kDaysPerYear) {
    return nodes[static_cast<std::size_t>(index)];
  }
  const DayPosition& at = day_positions()[static_cast<std::size_t>(index)];
  const auto month = static_cast<std::size_t>(at.month);
  const double weight = at.weight;
  return nodes[month] + weight * (nodes[next_month(month)] - nodes[month]);
}

double clamped_daily(std::span<const double> nodes, DayOfYear day) {
  return std::max(daily_value(nodes, day), 0.0);  // in this order NaN stays
}

std::array<double, kMonths> mean_weights(DayOfYear first, DayOfYear last) {
  const NodeWeights& from = weights_until(first - 1);
  const NodeWeights& to = weights_until(last);
  NodeWeights weights{};
  for (std::size_t i = 0; i < kMonths; ++i) {
    weights[i] = (to[i] - from[i]) / (last - first + 1);
  }
  return weights;
}

double daily_mean(std::span<const double> nodes, DayOfYear first, DayOfYear last) {
  if (nodes.size() == kDaysPerYear) {
    double days = 0.0;
    for (DayOfYear day = first; day <= last; ++day) {
      days += daily_value(nodes, day);
    }
    return days / (last - first + 1);
  }
  const NodeWeights weights = mean_weights(first, last);
  return std::inner_product(weights.begin(), weights.end(), nodes.begin(), 0.0);
}

double clamped_daily_mean(std::span<const double> nodes, DayOfYear first, DayOfYear last) {
  if (std::all_of(nodes.begin(), nodes.end(), [](double node) { return node >= 0.0; })) {
    return daily_mean(nodes, first, last);
  }
  double sum = 0.0;
  for (DayOfYear day = first; day <= last; ++day) {
    sum += clamped_daily(nodes, day);
  }
  return sum / (last - first + 1);
}

}  // namespace tidelot
