// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/waves.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tidelot {
namespace {

constexpr double kGravity = 9.81;  // m/s2, as in the manuals' worked figures
constexpr double kSeaWater = 1025.0;
constexpr double kPi = std::numbers::pi;

/// a tanh(b): growth b held back by the depth term a.
double held_back(double a, double b) { return a > 0.0 ? a * std::tanh(b / a) : 0.0; }

bool is_calm(double wind, double fetch_m) { return !(wind > 0.0) || !(fetch_m > 0.0); }

/// Wave number times depth, by Newton's method from the approximation of Eckart; converges in a few
/// steps from there for every depth.
double wave_number_depth(double period_s, double depth_m) {
  const double deep = 4.0 * kPi * kPi * depth_m / (kGravity * period_s * period_s);
  double kd = deep / std::sqrt(std::tanh(deep));
  for (int step = 0; step < 8; ++step) {
    const double t = std::tanh(kd);
    kd -= (kd * t - deep) / (t + kd * (1.0 - t * t));
  }
  return kd;
}

}  // namespace

double spm_adjusted_wind(double wind_10m) { return 0.71 * std::pow(wind_10m, 1.23); }

SeaState spm_deep(double adjusted_wind, double fetch_m) {
  if (is_calm(adjusted_wind, fetch_m)) {
    return {};
  }
  const double square = adjusted_wind * adjusted_wind;
  const double fetch = kGravity * fetch_m / square;
  const double height = std::min(1.6e-3 * std::sqrt(fetch), 0.2433);
  const double period = std::min(0.2857 * std::cbrt(fetch), 8.134);
  return {height * square / kGravity, period * adjusted_wind / kGravity};
}

double spm_deep_duration_s(double adjusted_wind, double fetch_m) {
  if (is_calm(adjusted_wind, fetch_m)) {
    return 0.0;
  }
  const double fetch = kGravity * fetch_m / (adjusted_wind * adjusted_wind);
  return 68.8 * std::pow(fetch, 2.0 / 3.0) * adjusted_wind / kGravity;
}

SeaState spm_shallow(double adjusted_wind, double fetch_m, double depth_m) {
  if (is_calm(adjusted_wind, fetch_m) || !(depth_m > 0.0)) {
    return {};
  }
  const double square = adjusted_wind * adjusted_wind;
  const double fetch = kGravity * fetch_m / square;
  const double depth = kGravity * depth_m / square;
  const double height =
      0.283 * held_back(std::tanh(0.530 * std::pow(depth, 0.75)), 0.00565 * std::sqrt(fetch));
  const double period =
      7.54 * held_back(std::tanh(0.833 * std::pow(depth, 0.375)), 0.0379 * std::cbrt(fetch));
  return {height * square / kGravity, period * adjusted_wind / kGravity};
}

SeaState cem_deep(double wind_10m, double fetch_m) {
  if (is_calm(wind_10m, fetch_m)) {
    return {};
  }
  const double drag = 0.001 * (1.1 + 0.035 * wind_10m);
  const double friction = std::sqrt(drag) * wind_10m;
  const double fetch = kGravity * fetch_m / (friction * friction);
  const double height = std::min(4.13e-2 * std::sqrt(fetch), 2.115e2);
  const double period = std::min(0.651 * std::cbrt(fetch), 2.398e2);
  return {height * friction * friction / kGravity, period * friction / kGravity};
}

SeaState young_verhagen(double wind_10m, double fetch_m, double depth_m) {
  if (is_calm(wind_10m, fetch_m) || !(depth_m > 0.0)) {
    return {};
  }
  const double square = wind_10m * wind_10m;
  const double fetch = kGravity * fetch_m / square;
  const double depth = kGravity * depth_m / square;
  const double energy = 3.64e-3 * std::pow(held_back(std::tanh(0.493 * std::pow(depth, 0.75)),
                                                     3.13e-3 * std::pow(fetch, 0.57)),
                                           1.74);
  const double frequency = 0.133 * std::pow(held_back(std::tanh(0.331 * std::pow(depth, 1.01)),
                                                      5.215e-4 * std::pow(fetch, 0.73)),
                                            -0.37);
  return {4.0 * std::sqrt(energy) * square / kGravity, wind_10m / (kGravity * frequency)};
}

SeaState breugem_holthuijsen(double wind_10m, double fetch_m, double depth_m) {
  if (is_calm(wind_10m, fetch_m) || !(depth_m > 0.0)) {
    return {};
  }
  const double square = wind_10m * wind_10m;
  const double fetch = kGravity * fetch_m / square;
  const double depth = kGravity * depth_m / square;
  const double height = 0.24 * std::pow(held_back(std::tanh(0.343 * std::pow(depth, 1.14)),
                                                  4.41e-4 * std::pow(fetch, 0.79)),
                                        0.572);
  const double period = 7.69 * std::pow(held_back(std::tanh(0.10 * std::pow(depth, 2.01)),
                                                  2.77e-7 * std::pow(fetch, 1.45)),
                                        0.187);
  return {height * square / kGravity, period * wind_10m / kGravity};
}

double depth_limited_height_m(double depth_m) { return 0.6 * std::max(depth_m, 0.0); }

double wave_length_m(double period_s, double depth_m) {
  if (!(period_s > 0.0) || !(depth_m > 0.0)) {
    return 0.0;
  }
  return 2.0 * kPi * depth_m / wave_number_depth(period_s, depth_m);
}

double orbital_speed(const SeaState& sea, double depth_m, double below_surface_m) {
  if (!(sea.period_s > 0.0) || !(depth_m > 0.0)) {
    return 0.0;
  }
  const double kd = wave_number_depth(sea.period_s, depth_m);
  const double above_bed = std::max(0.0, 1.0 - below_surface_m / depth_m);
  // cosh(a)/sinh(kd) = (e^(a-kd) + e^(-a-kd))/(1 - e^(-2 kd)): does not overflow in deep water
  const double a = kd * above_bed;
  const double share = (std::exp(a - kd) + std::exp(-a - kd)) / (1.0 - std::exp(-2.0 * kd));
  return kPi * sea.height_m / sea.period_s * share;
}

double group_ratio(double period_s, double depth_m) {
  const double twice = 2.0 * wave_number_depth(period_s, depth_m);
  return 0.5 * (1.0 + (twice < 700.0 ? twice / std::sinh(twice) : 0.0));
}

double shoaling(double period_s, double depth_m) {
  const double kd = wave_number_depth(period_s, depth_m);
  return std::sqrt(1.0 / (2.0 * group_ratio(period_s, depth_m) * std::tanh(kd)));
}

double line_drag_n_per_m(double speed, double diameter_m, double drag_coefficient) {
  return 0.5 * kSeaWater * drag_coefficient * diameter_m * speed * speed;
}

}  // namespace tidelot
