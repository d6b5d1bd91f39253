// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/first_order.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <vector>

namespace tidelot {
namespace {

constexpr std::size_t kTerms = 2;
constexpr std::size_t kFewest = kTerms + 3;

/// Places in the order of the values, spread from -1 to 1.
std::vector<double> ranks(std::span<const double> values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  std::vector<double> out(values.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    out[order[i]] = (2.0 * static_cast<double>(i) + 1.0) / static_cast<double>(order.size()) - 1.0;
  }
  return out;
}

/// Share of the sum of squares about the mean that a straight line and a parabola carry. The ranks
/// are even about 0, so that the two are orthogonal to each other.
double share_carried(const std::vector<double>& x, std::span<const double> y) {
  const double mean = std::accumulate(y.begin(), y.end(), 0.0) / static_cast<double>(y.size());
  double squares = 0.0, mean_square = 0.0;
  for (const double value : x) {
    mean_square += value * value / static_cast<double>(x.size());
  }
  std::array<double, kTerms> product{}, norm{};
  for (std::size_t i = 0; i < x.size(); ++i) {
    const std::array<double, kTerms> term{x[i], x[i] * x[i] - mean_square};
    squares += (y[i] - mean) * (y[i] - mean);
    for (std::size_t k = 0; k < kTerms; ++k) {
      product[k] += term[k] * (y[i] - mean);
      norm[k] += term[k] * term[k];
    }
  }
  return squares > 0.0
             ? (product[0] * product[0] / norm[0] + product[1] * product[1] / norm[1]) / squares
             : 0.0;
}

/// Of R2, with what chance carries taken off.
double corrected(double r2, std::size_t draws) {
  const auto n = static_cast<double>(draws);
  return 1.0 - (1.0 - r2) * (n - 1.0) / (n - 1.0 - kTerms);
}

}  // namespace

double first_order_share(std::span<const double> input, std::span<const double> output) {
  const auto [low, high] = std::minmax_element(input.begin(), input.end());
  if (input.size() < kFewest || *low == *high) {
    return 0.0;
  }
  return std::max(0.0, corrected(share_carried(ranks(input), output), input.size()));
}

double chance_share(std::size_t draws) {
  if (draws < kFewest) {
    return 1.0;
  }
  // P(F > f) = (1 + 2 f/d)^(-d/2) for two and d degrees of freedom, and R2 = (2 f/d)/(1 + 2 f/d).
  const double d = static_cast<double>(draws) - 1.0 - kTerms;
  return corrected(1.0 - std::pow(0.05, 2.0 / d), draws);
}

}  // namespace tidelot
