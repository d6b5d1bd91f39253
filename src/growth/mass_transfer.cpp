// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/mass_transfer.hpp"

#include <algorithm>
#include <cmath>

#include "growth/temperature_fit.hpp"

namespace tidelot {
namespace {

constexpr double kHoursLitres = 3600.0 * 1000.0;  // m/s m2/g -> L g-1 h-1

double reynolds(const Flow& flow) { return flow.current * flow.size_m / flow.viscosity; }

}  // namespace

double diffusivity(Nutrient nutrient, double temperature) {
  const double slope = nutrient == Nutrient::ammonium ? 0.413 : 0.388;
  return (9.50 + slope * std::clamp(temperature, kFitColdest, kFitWarmest)) * 1e-10;
}

double sea_water_viscosity(double temperature) {
  const double t = std::clamp(temperature, kFitColdest, kFitWarmest);
  const double salt = 0.035;  // kg/kg
  const double fresh = 4.2844e-5 + 1.0 / (0.157 * (t + 64.993) * (t + 64.993) - 91.296);
  const double a = 1.541 + 1.998e-2 * t - 9.52e-5 * t * t;
  const double b = 7.974 - 7.561e-2 * t + 4.724e-4 * t * t;
  constexpr double kDensity = 1025.0;  // kg/m3: within 0.5 % at any temperature here
  return fresh * (1.0 + a * salt + b * salt * salt) / kDensity;
}

double blade_transfer(const Flow& flow, double diffusivity) {
  const double schmidt = flow.viscosity / diffusivity;
  return 0.664 * std::sqrt(reynolds(flow)) * std::cbrt(schmidt) * diffusivity / flow.size_m;
}

double branch_eddies(const Flow& flow) { return std::pow(reynolds(flow) / 282000.0, 0.625); }

double branch_transfer(const Flow& flow, double diffusivity) {
  const double schmidt = flow.viscosity / diffusivity;
  const double re = reynolds(flow);
  const double laminar = 0.62 * std::sqrt(re) * std::cbrt(schmidt) /
                         std::pow(1.0 + std::pow(0.4 / schmidt, 2.0 / 3.0), 0.25);
  const double sherwood = 0.3 + laminar * std::pow(1.0 + branch_eddies(flow), 0.8);
  return sherwood * diffusivity / flow.size_m;
}

double co_limited(double s, double v_max, double k, double h) {
  // 2c/(b + sqrt(b^2 - 4c)), which takes nothing from near its equal; the root's content as a sum
  // of what is never below 0.
  const double difference = v_max - h * (k + s);
  const double root = std::sqrt(difference * difference + 4.0 * v_max * h * k);
  const double sum = v_max + h * (k + s) + root;
  return sum > 0.0 ? 2.0 * v_max * h * s / sum : 0.0;
}

double branch_supply(Nutrient nutrient, double current, double temperature, const Branch& branch) {
  const Flow flow{current, branch.width_m, sea_water_viscosity(temperature)};
  return branch_transfer(flow, diffusivity(nutrient, temperature)) * branch.surface_m2_per_g *
         kHoursLitres;
}

}  // namespace tidelot
