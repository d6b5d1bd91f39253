// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/farm_box.hpp"

#include <algorithm>
#include <cmath>

namespace tidelot {
namespace {

constexpr double kOfUptake = 1e-13;  // a root is good when the balance holds to this share
constexpr int kMostSteps = 200;

/// Root of a falling function between low (f >= 0) and high (f <= 0): the false position of Dowell
/// & Jarratt's Illinois rule, halved where that has not halved the bracket for three steps.
double falling_root(const std::function<double(double)>& f, double low, double f_low, double high,
                    double f_high, double close_enough) {
  int kept = 0;  // which end stayed in the last step: -1 low, 1 high
  double width = high - low;
  for (int i = 1; i <= kMostSteps && std::nextafter(low, high) < high; ++i) {
    const bool slow = i % 3 == 0 && high - low > width / 2.0;
    width = i % 3 == 0 ? high - low : width;
    const double secant = low + (high - low) * (f_low / (f_low - f_high));
    const double x = slow || !(secant > low && secant < high) ? low + (high - low) / 2.0 : secant;
    const double fx = f(x);
    if (std::abs(fx) <= close_enough) {
      return x;
    }
    if (fx > 0.0) {
      low = x;
      f_low = fx;
      f_high *= kept == 1 ? 0.5 : 1.0;
      kept = 1;
    } else {
      high = x;
      f_high = fx;
      f_low *= kept == -1 ? 0.5 : 1.0;
      kept = -1;
    }
  }
  return low + (high - low) / 2.0;
}

}  // namespace

FarmBox farm_box(double flow, double inflow, double v_max, double k) {
  if (!(flow > 0.0)) {
    return {0.0, 0.0, 0.0};
  }
  // C^2 + b C - inflow k = 0; of the two forms of its root the one without cancellation.
  const double b = v_max / flow + k - inflow;
  const double product = inflow * k;
  const double root = std::hypot(b, 2.0 * std::sqrt(product));
  const double inside = b > 0.0 ? 2.0 * product / (b + root) : (root - b) / 2.0;
  return {inside, v_max * (inside / (k + inside)), flow * inflow};
}

double nitrogen_drop(double flow, double inflow, const std::function<double(double)>& uptake) {
  if (!(flow > 0.0)) {
    return inflow;
  }
  const auto short_by = [&](double drop) { return uptake(inflow - drop) - flow * drop; };
  const double taken = uptake(inflow);
  const double close_enough = kOfUptake * std::abs(taken);
  // At the inflow's concentration the crop takes (or gives back) the most, so what the water loses
  // lies between nothing and that: a bracket that is already near.
  const double most = std::min(inflow, taken / flow);
  const double at_most = short_by(most);
  if (std::abs(at_most) <= close_enough) {
    return most;
  }
  if (taken < 0.0) {
    return falling_root(short_by, most, at_most, 0.0, taken, close_enough);
  }
  if (at_most < 0.0) {
    return falling_root(short_by, 0.0, taken, most, at_most, close_enough);
  }
  const double at_all = short_by(inflow);
  return at_all < 0.0 ? falling_root(short_by, most, at_most, inflow, at_all, close_enough)
                      : inflow;
}

}  // namespace tidelot
