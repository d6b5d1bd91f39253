// SPDX-License-Identifier: Apache-2.0
#include "growth/exact_day.hpp"

#include <algorithm>
#include <cmath>

namespace tidelot {

double exp_slope(double x) { return x == 0.0 ? 1.0 : std::expm1(x) / x; }

double exp_curvature(double x, double y) {
  if (std::abs(x - y) > 1.0) {
    return (exp_slope(x) - exp_slope(y)) / (x - y);
  }
  // The quotient loses its digits where x is near y. The divided difference of the exponential at
  // 0, x and y is the sum over k of h_k(x, y)/(k + 2)!, h_k the sum of all products of k factors.
  const double largest = std::max(std::abs(x), std::abs(y));
  double sum = 0.0;
  double product = 1.0;
  double power = 1.0;
  double factorial = 2.0;
  double bound = 1.0;
  for (int k = 0; k < 100 && bound > 1e-18; ++k) {
    sum += product / factorial;
    power *= y;
    product = x * product + power;
    factorial *= k + 3;
    bound *= largest / (k + 1);
  }
  return sum;
}

namespace {

/// A day's rates: s = a + m, and the reserve before it is held in its bounds.
struct Reserve {
  double s;
  double push;
  double free;
};

Reserve reserve_of(const DayStart& day) {
  const double a = day.uptake_per_day;
  const double s = a + day.net_growth;
  // Q(t) = Q + (a Qmax - s Q) (1 - e^(-st))/s, which has no pole at s = 0.
  const double push = a * day.q_max - s * day.reserve;
  return {s, push, day.reserve + push * exp_slope(-s)};
}

}  // namespace

ExactDay exact_day(const DayStart& day) {
  const double a = day.uptake_per_day;
  const double m = day.net_growth;
  const auto [s, push, free_reserve] = reserve_of(day);
  const double grown = day.weight * std::exp(m);
  ExactDay end{};
  end.weight = day.weight * std::exp(m - day.loss);
  end.reserve = std::clamp(free_reserve, day.q_min, day.q_max);
  const double weight_days = day.weight * exp_slope(m);
  const double nitrogen_days =
      day.reserve * weight_days + push * day.weight * exp_curvature(m, m - s);
  end.taken_up =
      a * (day.q_max * weight_days - nitrogen_days) + (end.reserve - free_reserve) * grown;
  end.lost = grown * -std::expm1(-day.loss) * end.reserve;
  return end;
}

}  // namespace tidelot
