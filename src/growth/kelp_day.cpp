// SPDX-License-Identifier: Apache-2.0
#include "growth/kelp_day.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "growth/exact_day.hpp"
#include "growth/numbers.hpp"
#include "tidelot/season/sun.hpp"
#include "tidelot/season/tide_light.hpp"

namespace tidelot {
namespace {

/// Light over that of noon at the Gauss nodes of half the day.
const std::array<double, 3> kDayLight = [] {
  std::array<double, 3> light{};
  for (std::size_t i = 0; i < light.size(); ++i) {
    light[i] = std::sin(std::numbers::pi / 2.0 * kGaussNodes[i]);
  }
  return light;
}();

double mean_of_day(double noon, double inhibition, const KelpConstants& k) {
  double mean = 0.0;
  for (std::size_t i = 0; i < kDayLight.size(); ++i) {
    mean += kGaussWeights[i] * kelp::photosynthesis(noon * kDayLight[i], inhibition, k);
  }
  return mean;
}

/// A frond whose carbon runs out burns structure: the share (C_min - C)/C_struct of it. Returns
/// the share that is left.
double burn_structure(Frond& frond, const KelpConstants& k) {
  const double burnt = std::clamp((k.c_min - frond.c) / k.c_struct, 0.0, 1.0);
  frond.c = std::max(frond.c, k.c_min);
  return 1.0 - burnt;
}

/// One step of `days`: reserves and area by the exact solution at the step's first growth and
/// erosion, which is the alga's with all nitrogen of the structure as the reserve.
void step(Frond& frond, const KelpRates& rates, double days, const KelpConstants& k,
          KelpGain& gain) {
  const double allowed =
      std::min(reserve_factor(frond.n, k.n_min), reserve_factor(frond.c, k.c_min));
  const double growth = days * rates.growth * kelp::area_factor(frond.area, k) * allowed;
  const ExactDay end = exact_day({k.k_a * frond.area, frond.n + k.n_struct, growth,
                                  days * kelp::erosion(frond.area, k), days * rates.uptake_per_day,
                                  k.n_min + k.n_struct, k.n_max + k.n_struct});
  const double carbon =
      days * (rates.carbon_per_day * (1.0 - kelp::exudation(frond.c, k)) - rates.respired_per_day);
  frond.c = (frond.c + k.c_struct) * std::exp(-growth) + carbon * exp_slope(-growth) - k.c_struct;
  frond.n = end.reserve - k.n_struct;
  const double left = burn_structure(frond, k);
  frond.area = end.weight * left / k.k_a;
  gain.taken_up += end.taken_up;
  gain.lost += end.lost + (1.0 - left) * end.weight * end.reserve;
}

}  // namespace

double mean_photosynthesis(const DayForcing& day, double dry_g_per_m, double inhibition,
                           const Husbandry& husbandry, const KelpConstants& k) {
  const double height = k.canopy_height_m;
  const double top = std::max(0.0, husbandry.line_depth_m - height / 2.0);
  const double shading =
      day.attenuation + k.shade_m2_per_g * (dry_g_per_m / k.canopy_width_m) / height;
  const double noon = noon_flux(day.par_mol, day.day_length_h) * std::exp(-day.attenuation * top) *
                      tide_light(day.attenuation, husbandry.tide_m);
  double mean = 0.0;
  for (std::size_t i = 0; i < kGaussNodes.size(); ++i) {
    mean += kGaussWeights[i] *
            mean_of_day(noon * std::exp(-shading * kGaussNodes[i] * height), inhibition, k);
  }
  return mean;
}

KelpRates kelp_rates(const DayForcing& day, const Frond& frond, double inhibition,
                     const Husbandry& husbandry, const KelpConstants& k) {
  const double nitrate = (1.0 - husbandry.nh4_share) * day.nitrogen;
  const double photosynthesis = mean_photosynthesis(
      day, k.fronds_per_m * kelp::dry_weight(frond, k), inhibition, husbandry, k);
  return {kelp::photoperiod_factor(day.day_length_change, k) * k.temperature(day.temperature) *
              k.salinity(day.salinity),
          day.day_length_h * photosynthesis / k.k_a,
          24.0 * kelp::respiration(day.temperature, k) / k.k_a,
          24.0 * kelp::uptake(nitrate, day.current, day.temperature, k.n_min, k) /
              (k.k_a * (k.n_max - k.n_min))};
}

double reserve_factor(double reserve, double least) { return std::max(0.0, 1.0 - least / reserve); }

KelpGain grow_frond(Frond& frond, const KelpRates& rates, const KelpConstants& k, int steps) {
  KelpGain gain;
  for (int i = 0; i < steps; ++i) {
    step(frond, rates, 1.0 / steps, k, gain);
  }
  return gain;
}

double kelp_inhibition(double temperature, const KelpConstants& k) {
  return kelp::inhibition(kelp::p_max(temperature, k), k);
}

DayTrace grow_kelp_day(const DayForcing& day, Frond& frond, double inhibition,
                       const Husbandry& husbandry, const KelpConstants& k) {
  DayTrace trace{};
  trace.forcing = day;
  trace.f_temperature = k.temperature(day.temperature);
  trace.f_salinity = k.salinity(day.salinity);
  trace.f_density = 1.0;
  const double full = reserve_factor(k.n_max, k.n_min);
  trace.f_nitrogen = reserve_factor(frond.n, k.n_min) / full;
  trace.f_light = std::min(1.0, reserve_factor(frond.c, k.c_min) / full);
  const double before = frond.area;
  const KelpGain gain = grow_frond(frond, kelp_rates(day, frond, inhibition, husbandry, k), k);
  trace.growth_per_day = std::log(frond.area / before);
  trace.biomass_g_per_m = k.fronds_per_m * kelp::wet_weight(frond, k);
  trace.tissue_n = kelp::total_nitrogen(frond, k) / kelp::dry_weight(frond, k);
  trace.uptake_g_per_m = k.fronds_per_m * gain.taken_up;
  trace.lost_n_g_per_m = k.fronds_per_m * gain.lost;
  return trace;
}

}  // namespace tidelot
