// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/random_field.hpp"

#include <array>
#include <cmath>

namespace tidelot {
namespace {

constexpr int kReach = 4;  // nodes that a cubic B-spline needs in each direction

// Smoothing white noise by a cubic B-spline (variance 1/3 of the squared spacing) leaves a
// correlation near that of a Gaussian of twice that variance: exp(-d^2 / (4/3 spacing^2)).
const double kLengthOverSpacing = std::sqrt(4.0 / 3.0);

/// The cubic B-spline's weights at t, 0..1, between the second and third of four nodes.
std::array<double, kReach> spline_weights(double t) {
  const double u = 1.0 - t;
  return {u * u * u / 6.0, (3.0 * t * t * t - 6.0 * t * t + 4.0) / 6.0,
          (3.0 * u * u * u - 6.0 * u * u + 4.0) / 6.0, t * t * t / 6.0};
}

}  // namespace

RandomField::RandomField(std::uint64_t seed, std::uint32_t stream, int draws, double length_m)
    : seed_(seed), stream_(stream), draws_(draws), spacing_m_(length_m / kLengthOverSpacing) {}

const std::vector<float>& RandomField::node(std::int32_t column, std::int32_t row) {
  const auto [found, is_new] = nodes_.try_emplace({column, row});
  if (is_new) {
    const Place place{stream_, static_cast<std::uint32_t>(column), static_cast<std::uint32_t>(row)};
    for (const double p : latin_hypercube(seed_, place, draws_)) {
      found->second.push_back(static_cast<float>(normal_quantile(p)));
    }
  }
  return found->second;
}

std::vector<float> RandomField::at(XY place) {
  const double x = place.x / spacing_m_;
  const double y = place.y / spacing_m_;
  const auto column = static_cast<std::int32_t>(std::floor(x));
  const auto row = static_cast<std::int32_t>(std::floor(y));
  const auto across = spline_weights(x - column);
  const auto down = spline_weights(y - row);
  std::vector<double> sum(static_cast<std::size_t>(draws_));
  double squares = 0.0;
  for (int j = 0; j < kReach; ++j) {
    for (int i = 0; i < kReach; ++i) {
      const double weight =
          across.at(static_cast<std::size_t>(i)) * down.at(static_cast<std::size_t>(j));
      const std::vector<float>& deviates = node(column + i - 1, row + j - 1);
      squares += weight * weight;
      for (std::size_t m = 0; m < sum.size(); ++m) {
        sum[m] += weight * static_cast<double>(deviates[m]);
      }
    }
  }
  std::vector<float> out;
  out.reserve(sum.size());
  for (const double value : sum) {
    out.push_back(static_cast<float>(value / std::sqrt(squares)));
  }
  return out;
}

}  // namespace tidelot
