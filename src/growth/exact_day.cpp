// SPDX-License-Identifier: Apache-2.0
#include "growth/exact_day.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace tidelot {

double exp_slope(double x) { return x == 0.0 ? 1.0 : std::expm1(x) / x; }

namespace {

constexpr std::size_t kMostTerms = 100;

/// 1/(k + 2)!, k = 0, 1, ...
constexpr std::array<double, kMostTerms> kInverseFactorials = [] {
  std::array<double, kMostTerms> out{};
  double factorial = 2.0;
  for (std::size_t k = 0; k < kMostTerms; ++k) {
    out[k] = 1.0 / factorial;
    factorial *= static_cast<double>(k + 3);
  }
  return out;
}();

}  // namespace

double exp_curvature(double x, double y) {
  if (std::abs(x - y) > 1.0) {
    return (exp_slope(x) - exp_slope(y)) / (x - y);
  }
  // The quotient loses its digits where x is near y. The divided difference of the exponential at
  // 0, x and y is the sum over k of h_k(x, y)/(k + 2)!, h_k the sum of all products of k factors:
  // of k + 1 products, none above `largest` to the k.
  const double largest = std::max(std::abs(x), std::abs(y));
  double sum = 0.0;
  double product = 1.0;
  double power = 1.0;
  double bound = 1.0;
  for (std::size_t k = 0; k < kMostTerms && bound * kInverseFactorials[k] > 1e-19; ++k) {
    sum += product * kInverseFactorials[k];
    power *= y;
    product = x * product + power;
    bound *= largest;
  }
  return sum;
}

DayAhead::DayAhead(const DayStart& day)
    : day_(day),
      grown_(day.weight * std::exp(day.net_growth)),
      weight_days_(day.weight * exp_slope(day.net_growth)) {}

DayAhead::Reserve DayAhead::reserve(double uptake_per_day) const {
  const double s = uptake_per_day + day_.net_growth;
  // Q(t) = Q + (a Qmax - s Q) (1 - e^(-st))/s, which has no pole at s = 0.
  const double push = uptake_per_day * day_.q_max - s * day_.reserve;
  const double free = day_.reserve + push * exp_slope(-s);
  return {s, push, free, std::clamp(free, day_.q_min, day_.q_max)};
}

double DayAhead::taken_up(double uptake_per_day, const Reserve& reserve) const {
  const double m = day_.net_growth;
  const double nitrogen_days =
      day_.reserve * weight_days_ + reserve.push * day_.weight * exp_curvature(m, m - reserve.s);
  return uptake_per_day * (day_.q_max * weight_days_ - nitrogen_days) +
         (reserve.held - reserve.free) * grown_;
}

double DayAhead::taken_up(double uptake_per_day) const {
  return taken_up(uptake_per_day, reserve(uptake_per_day));
}

ExactDay DayAhead::end(double uptake_per_day) const {
  const Reserve at_end = reserve(uptake_per_day);
  ExactDay end{};
  end.weight = day_.weight * std::exp(day_.net_growth - day_.loss);
  end.reserve = at_end.held;
  end.taken_up = taken_up(uptake_per_day, at_end);
  end.lost = grown_ * -std::expm1(-day_.loss) * end.reserve;
  return end;
}

}  // namespace tidelot
