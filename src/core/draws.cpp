// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/draws.hpp"

#include <Random123/philox.h>

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <limits>
#include <numeric>

namespace tidelot {
namespace {

// The highest bit of the stream tells the two numbers of a stratum apart.
constexpr std::uint32_t kOrder = 0x80000000U;

}  // namespace

double uniform_at(std::uint64_t seed, Place place, std::uint32_t index) {
  using Generator = r123::Philox4x32;
  const Generator::key_type key{
      {static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32U)}};
  const auto bits = Generator{}({{place.stream, place.column, place.row, index}}, key);
  const std::uint64_t whole = (std::uint64_t{bits[0]} << 32U) | bits[1];
  return (static_cast<double>(whole >> 11U) + 0.5) * 0x1p-53;
}

std::vector<double> latin_hypercube(std::uint64_t seed, Place place, int draws) {
  const auto count = static_cast<std::size_t>(draws);
  std::vector<std::uint32_t> part(count);
  std::iota(part.begin(), part.end(), 0U);
  const Place order{place.stream | kOrder, place.column, place.row};
  std::vector<double> key(count);
  for (std::uint32_t i = 0; i < count; ++i) {
    key[i] = uniform_at(seed, order, i);
  }
  std::sort(part.begin(), part.end(), [&](std::uint32_t a, std::uint32_t b) {
    return key[a] != key[b] ? key[a] < key[b] : a < b;
  });
  std::vector<double> out(count);
  for (std::uint32_t i = 0; i < count; ++i) {
    out[i] = (part[i] + uniform_at(seed, place, i)) / draws;
  }
  return out;
}

double normal_quantile(double p) { return quantile(boost::math::normal(), p); }

double triangular_quantile(double p, const Triangular& t) {
  const double span = t.high - t.low;
  if (!(span > 0.0)) {
    return t.mode;
  }
  return p < (t.mode - t.low) / span ? t.low + std::sqrt(p * span * (t.mode - t.low))
                                     : t.high - std::sqrt((1.0 - p) * span * (t.high - t.mode));
}

double lognormal_spread(double cv) { return std::sqrt(std::log1p(cv * cv)); }

double lognormal_of_spread(double z, double spread) {
  return std::exp(spread * z - spread * spread / 2.0);
}

double lognormal_factor(double z, double cv) {
  return lognormal_of_spread(z, lognormal_spread(cv));
}

double quantile_of_sorted(std::span<const float> sorted, double p) {
  if (sorted.empty()) {
    return std::numeric_limits<double>::quiet_NaN();
  }
  const double at = p * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  const double low = sorted[below];
  return low + (at - static_cast<double>(below)) * (sorted[above] - low);
}

Quantiles quantiles_of(std::span<float> values) {
  std::sort(values.begin(), values.end());
  return {quantile_of_sorted(values, 0.1), quantile_of_sorted(values, 0.5),
          quantile_of_sorted(values, 0.9)};
}

}  // namespace tidelot
