// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/judgement.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace tidelot {
namespace {

constexpr std::array<double, 10> kRandomIndex{0.0,  0.0,  0.58, 0.90, 1.12,
                                              1.24, 1.32, 1.41, 1.45, 1.49};
constexpr int kMostSteps = 10000;

std::vector<double> times(std::span<const double> matrix, const std::vector<double>& v) {
  std::vector<double> out(v.size(), 0.0);
  for (std::size_t i = 0; i < v.size(); ++i) {
    out[i] = std::inner_product(v.begin(), v.end(),
                                matrix.begin() + static_cast<std::ptrdiff_t>(i * v.size()), 0.0);
  }
  return out;
}

}  // namespace

JudgedWeights judged_weights(std::span<const double> matrix, int n) {
  const auto size = static_cast<std::size_t>(std::max(n, 0));
  const bool good = n >= 1 && matrix.size() == size * size &&
                    std::all_of(matrix.begin(), matrix.end(),
                                [](double v) { return v > 0.0 && std::isfinite(v); });
  if (!good) {
    throw std::invalid_argument("judgements must be a square matrix of positive numbers");
  }
  JudgedWeights out;
  out.weights.assign(size, 1.0 / static_cast<double>(n));
  // Power iteration: a positive matrix has one largest eigenvalue, with a positive eigenvector.
  for (int step = 0; step < kMostSteps; ++step) {
    std::vector<double> next = times(matrix, out.weights);
    out.largest_eigenvalue = std::accumulate(next.begin(), next.end(), 0.0);
    double change = 0.0;
    for (std::size_t i = 0; i < size; ++i) {
      next[i] /= out.largest_eigenvalue;
      change = std::max(change, std::abs(next[i] - out.weights[i]));
    }
    out.weights = std::move(next);
    if (change < 1e-15) {
      break;
    }
  }
  if (n > 2) {
    out.consistency_index = (out.largest_eigenvalue - n) / (n - 1);
    out.consistency_ratio =
        out.consistency_index / kRandomIndex[std::min(size, kRandomIndex.size()) - 1];
  }
  return out;
}

}  // namespace tidelot
