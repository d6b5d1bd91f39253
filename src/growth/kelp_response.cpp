// SPDX-License-Identifier: Apache-2.0
// Responses of a kelp frond: Broch & Slagstad 2012, J. Appl. Phycol. 24:759-776.
#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <optional>

#include "growth/numbers.hpp"
#include "tidelot/growth/kelp.hpp"
#include "tidelot/growth/mass_transfer.hpp"

namespace tidelot {
namespace {

constexpr double kZeroCelsius = 273.15;

/// ln(1 + e^y) without overflow.
double softplus(double y) { return y > 30.0 ? y : std::log1p(std::exp(y)); }

/// p_max over alpha i_sat, as a function of y = ln(alpha/beta); falls from 1/e to 0.
double yield_at_saturation(double y) {
  const double above = softplus(y);  // ln(1 + alpha/beta)
  return std::exp(-softplus(-y) - std::exp(-y) * above) / above;
}

// Bounds of ln(alpha/beta).
constexpr double kStrongest = -20.0;
constexpr double kWeakest = 700.0;

/// ln(alpha/beta) between two bounds, to 1e-13 of itself or so (Alefeld, Potra & Shi 1995, ACM TOMS
/// 21:327, algorithm 748).
double log_weakness(double wanted, double strong, double weak) {
  const auto off = [wanted](double y) { return yield_at_saturation(y) - wanted; };
  const double at_strong = off(strong);
  const double at_weak = off(weak);
  if (!(at_strong > 0.0)) {
    return strong;
  }
  if (!(at_weak < 0.0)) {
    return weak;
  }
  std::uintmax_t most = 100;
  const auto [low, high] = boost::math::tools::toms748_solve(
      off, strong, weak, at_strong, at_weak, boost::math::tools::eps_tolerance<double>(44), most);
  return 0.5 * (low + high);
}

/// The same by Newton's steps on ln(yield_at_saturation), whose slope is e^(-y) S - 1/((1 + e^(-y))
/// S) with S = ln(1 + e^y); none where they don't settle.
std::optional<double> log_weakness_near(double log_wanted, double y) {
  constexpr int kMostSteps = 8;
  constexpr double kSettled = 1e-8;  // the step after is below 1e-15
  for (int i = 0; i < kMostSteps && y > kStrongest && y < kWeakest; ++i) {
    const double inverse = std::exp(-y);
    const double above = y + std::log1p(inverse);
    const double off = -std::log1p(inverse) - inverse * above - std::log(above) - log_wanted;
    const double slope = inverse * above - 1.0 / ((1.0 + inverse) * above);
    const double change = off / slope;
    y -= change;
    if (std::abs(change) < kSettled) {
      return y;
    }
  }
  return std::nullopt;
}

/// Arrhenius: e^(a/b - a/t).
double arrhenius(double a, double b, double t) { return std::exp(a / b - a / t); }

/// Dry weight over structural weight: reserve tissue k_N and k_C, and what it holds.
double reserve_weight(const Frond& frond, const KelpConstants& k) {
  return k.k_n * (frond.n - k.n_min) + k.n_min + k.k_c * (frond.c - k.c_min) + k.c_min;
}

}  // namespace

namespace kelp {

double area_factor(double area, const KelpConstants& k) {
  const double ratio = area / k.a0;
  return k.m1 * std::exp(-ratio * ratio) + k.m2;
}

double photoperiod_factor(double day_length_change, const KelpConstants& k) {
  const double root = std::copysign(std::sqrt(std::abs(day_length_change)), day_length_change);
  return k.a1 * (1.0 + root) + k.a2;
}

double erosion(double area, const KelpConstants& k) {
  // Over e^(epsilon A), so that a huge frond does not overflow.
  const double inverse = std::exp(-k.epsilon * area);
  return 1e-6 / (inverse + 1e-6 * (1.0 - inverse));
}

double current_factor(double current, const KelpConstants& k) {
  return -k.c1 * std::expm1(-current / k.c2) + k.c3;
}

double uptake(double nitrate, double current, double temperature, double n,
              const KelpConstants& k) {
  const double room = (k.n_max - n) / (k.n_max - k.n_min);
  if (k.blade_m > 0.0) {
    return room * co_limited(nitrate, k.j_max, k.k_x, blade_supply(current, temperature, k));
  }
  return current_factor(current, k) * room * michaelis_menten(nitrate, k.j_max, k.k_x);
}

double blade_supply(double current, double temperature, const KelpConstants& k) {
  constexpr double kBothSides = 2.0 * 0.01;  // m2 of surface per dm2 of frond
  const Flow flow{current, k.blade_m, sea_water_viscosity(temperature)};
  return blade_transfer(flow, diffusivity(Nutrient::nitrate, temperature)) * 3600.0 * kBothSides *
         kNitrogenPerMillimole;
}

double p_max(double temperature, const KelpConstants& k) {
  const double t = temperature + kZeroCelsius;
  const double cold = arrhenius(-k.t_apl, k.t_pl, t);
  const double hot = arrhenius(k.t_aph, k.t_ph, t);
  return k.p1 * arrhenius(k.t_ap, k.t_p1, t) / (1.0 + cold + hot);
}

double inhibition(double p_max, const KelpConstants& k) {
  return std::exp(-log_weakness(p_max / (k.alpha * k.i_sat), kStrongest, kWeakest));
}

double inhibition_near(double p_max, double near, const KelpConstants& k) {
  const double wanted = p_max / (k.alpha * k.i_sat);
  const std::optional<double> found = log_weakness_near(std::log(wanted), -std::log(near));
  return found ? std::exp(-*found) : inhibition(p_max, k);
}

double photosynthesis(double light, double inhibition, const KelpConstants& k) {
  return light_curve(inhibition, k)(light);
}

LightCurve light_curve(double inhibition, const KelpConstants& k) {
  const double above = std::log1p(1.0 / inhibition);
  return {inhibition, above / k.i_sat, -k.alpha * k.i_sat / above};
}

double LightCurve::operator()(double light) const {
  const double x = light * use;
  return most * std::expm1(-x) * std::exp(-inhibition * x);
}

double respiration(double temperature, const KelpConstants& k) {
  return k.r1 * arrhenius(k.t_ar, k.t_r1, temperature + kZeroCelsius);
}

double exudation(double c, const KelpConstants& k) { return -std::expm1(k.gamma * (k.c_min - c)); }

double structural_weight(const Frond& frond, const KelpConstants& k) { return k.k_a * frond.area; }

double dry_weight(const Frond& frond, const KelpConstants& k) {
  return structural_weight(frond, k) * (1.0 + reserve_weight(frond, k));
}

double wet_weight(const Frond& frond, const KelpConstants& k) {
  return structural_weight(frond, k) * (1.0 / k.k_dw + reserve_weight(frond, k));
}

double total_nitrogen(const Frond& frond, const KelpConstants& k) {
  return (frond.n + k.n_struct) * structural_weight(frond, k);
}

double total_carbon(const Frond& frond, const KelpConstants& k) {
  return (frond.c + k.c_struct) * structural_weight(frond, k);
}

}  // namespace kelp
}  // namespace tidelot
