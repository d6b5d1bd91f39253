// SPDX-License-Identifier: Apache-2.0
#include "growth/kelp_day.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "growth/exact_day.hpp"
#include "growth/numbers.hpp"
#include "tidelot/season/sun.hpp"
#include "tidelot/season/tide_light.hpp"

namespace tidelot {
namespace {

double mean_of_day(double noon, const kelp::LightCurve& curve) {
  double mean = 0.0;
  for (std::size_t i = 0; i < kDayLight.size(); ++i) {
    mean += kGaussWeights[i] * curve(noon * kDayLight[i]);
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
  const DayStart start{
      k.k_a * frond.area,   frond.n + k.n_struct, growth, days * kelp::erosion(frond.area, k),
      k.n_min + k.n_struct, k.n_max + k.n_struct};
  const ExactDay whole = DayAhead(start).end(days * rates.uptake_per_day);
  const double carbon =
      days * (rates.carbon_per_day * (1.0 - kelp::exudation(frond.c, k)) - rates.respired_per_day);
  frond.c = (frond.c + k.c_struct) * std::exp(-growth) + carbon * exp_slope(-growth) - k.c_struct;
  frond.n = whole.reserve - k.n_struct;
  const double left = burn_structure(frond, k);
  frond.area = whole.weight * left / k.k_a;
  gain.taken_up += whole.taken_up;
  gain.lost += whole.lost + (1.0 - left) * whole.weight * whole.reserve;
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
  const kelp::LightCurve curve = kelp::light_curve(inhibition, k);
  double mean = 0.0;
  for (std::size_t i = 0; i < kGaussNodes.size(); ++i) {
    mean +=
        kGaussWeights[i] * mean_of_day(noon * std::exp(-shading * kGaussNodes[i] * height), curve);
  }
  return mean;
}

double kelp_uptake(const DayForcing& day, double nitrogen, const Husbandry& husbandry,
                   const KelpConstants& k) {
  const double nitrate = (1.0 - day.nh4_share.value_or(husbandry.nh4_share)) * nitrogen;
  return 24.0 * kelp::uptake(nitrate, day.current, day.temperature, k.n_min, k) /
         (k.k_a * (k.n_max - k.n_min));
}

KelpRates kelp_rates(const DayForcing& day, const Frond& frond, double inhibition,
                     const Husbandry& husbandry, const KelpConstants& k) {
  const double photosynthesis = mean_photosynthesis(
      day, k.fronds_per_m * kelp::dry_weight(frond, k), inhibition, husbandry, k);
  return {kelp::photoperiod_factor(day.day_length_change, k) * k.temperature(day.temperature) *
              k.salinity(day.salinity),
          day.day_length_h * photosynthesis / k.k_a,
          24.0 * kelp::respiration(day.temperature, k) / k.k_a,
          kelp_uptake(day, day.nitrogen, husbandry, k)};
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

KelpDay::KelpDay(const DayForcing& day, const Frond& frond, double inhibition,
                 const Husbandry& husbandry, const KelpConstants& k)
    : day_(day),
      husbandry_(husbandry),
      k_(k),
      start_(frond),
      rates_(kelp_rates(day, frond, inhibition, husbandry, k)) {}

KelpRates KelpDay::rates(double nitrogen) const {
  KelpRates rates = rates_;
  if (nitrogen != day_.nitrogen) {
    rates.uptake_per_day = kelp_uptake(day_, nitrogen, husbandry_, k_);
  }
  return rates;
}

double KelpDay::uptake(double nitrogen) const {
  Frond frond = start_;
  return k_.fronds_per_m * grow_frond(frond, rates(nitrogen), k_).taken_up;
}

std::array<double, kFactors> KelpDay::factors() const {
  const double full = reserve_factor(k_.n_max, k_.n_min);
  return {k_.temperature(day_.temperature), k_.salinity(day_.salinity),
          std::min(1.0, reserve_factor(start_.c, k_.c_min) / full),
          reserve_factor(start_.n, k_.n_min) / full, 1.0};
}

DayTrace KelpDay::end(double nitrogen, Frond& frond) const {
  DayTrace trace{};
  trace.forcing = day_;
  trace.forcing.nitrogen = nitrogen;
  const auto [temperature, salinity, light, reserve, density] = factors();
  trace.f_temperature = temperature;
  trace.f_salinity = salinity;
  trace.f_light = light;
  trace.f_nitrogen = reserve;
  trace.f_density = density;
  frond = start_;
  const KelpGain gain = grow_frond(frond, rates(nitrogen), k_);
  trace.growth_per_day = std::log(frond.area / start_.area);
  trace.biomass_g_per_m = k_.fronds_per_m * kelp::wet_weight(frond, k_);
  trace.tissue_n = kelp::total_nitrogen(frond, k_) / kelp::dry_weight(frond, k_);
  trace.uptake_g_per_m = k_.fronds_per_m * gain.taken_up;
  trace.lost_n_g_per_m = k_.fronds_per_m * gain.lost;
  return trace;
}

}  // namespace tidelot
