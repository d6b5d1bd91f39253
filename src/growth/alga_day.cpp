// SPDX-License-Identifier: Apache-2.0
#include "growth/alga_day.hpp"

#include <algorithm>
#include <cmath>

#include "growth/numbers.hpp"
#include "tidelot/season/sun.hpp"
#include "tidelot/season/tide_light.hpp"

namespace tidelot {
namespace {

/// Mean over half the day (the other half mirrors it) of tanh(I/Ik), light being `noon` at noon.
double mean_of_day(double noon_over_ik) {
  double mean = 0.0;
  for (std::size_t i = 0; i < kGaussNodes.size(); ++i) {
    mean += kGaussWeights[i] * std::tanh(noon_over_ik * kDayLight[i]);
  }
  return mean;
}

/// Light factor: day length times the mean of tanh(I/Ik) over day and canopy, over the same of the
/// culture behind mu_max. The canopy shades itself with its weight at the start of the day.
double light_factor(const DayForcing& day, double weight, const Husbandry& husbandry,
                    const AlgaConstants& c) {
  const double height = c.canopy_height_m;
  const double top = std::max(0.0, husbandry.line_depth_m - height / 2.0);
  const double shading =
      day.attenuation + c.shade_m2_per_g * (weight * c.dry_to_fresh / c.canopy_width_m) / height;
  const double noon = noon_flux(day.par_mol, day.day_length_h) * std::exp(-day.attenuation * top) *
                      tide_light(day.attenuation, husbandry.tide_m);
  double mean = 0.0;
  for (std::size_t i = 0; i < kGaussNodes.size(); ++i) {
    mean += kGaussWeights[i] *
            mean_of_day(noon * std::exp(-shading * kGaussNodes[i] * height) / c.light_ik);
  }
  return day.day_length_h * mean / (c.light_ref_h * std::tanh(c.light_ref / c.light_ik));
}

}  // namespace

AlgaDay::AlgaDay(const DayForcing& day, const Crop1m& crop, const Husbandry& husbandry,
                 const AlgaConstants& constants)
    : husbandry_(husbandry), constants_(constants) {
  const AlgaConstants& c = constants;
  trace_.forcing = day;
  trace_.f_temperature = ctmi(day.temperature, c.t_min, c.t_opt, c.t_max);
  trace_.f_salinity = c.salinity(day.salinity);
  trace_.f_light = light_factor(day, crop.weight, husbandry, c);
  trace_.f_nitrogen = quota_factor(crop.reserve, c.q_min, c.q_max);
  trace_.f_density = std::max(0.0, 1.0 - crop.weight / c.w_max);
  const double gross = c.mu_max_per_day * trace_.f_temperature * trace_.f_salinity *
                       trace_.f_light * trace_.f_nitrogen * trace_.f_density;
  const double respired = c.respiration_20 * std::pow(c.q10, (day.temperature - 20.0) / 10.0);
  ahead_.emplace(
      DayStart{crop.weight, crop.reserve, gross - respired, c.loss_per_day, c.q_min, c.q_max});
  trace_.growth_per_day = gross - respired - c.loss_per_day;
}

double AlgaDay::uptake_per_day(double nitrogen) const {
  const AlgaConstants& c = constants_;
  const double ammonium = trace_.forcing.nh4_share.value_or(husbandry_.nh4_share) * nitrogen;
  const double uptake = uptake_rate(ammonium, nitrogen - ammonium, trace_.forcing.current,
                                    trace_.forcing.temperature, c);
  return uptake / (c.q_max - c.q_min);
}

double AlgaDay::uptake(double nitrogen) const {
  return constants_.dry_to_fresh * ahead_->taken_up(uptake_per_day(nitrogen));
}

DayTrace AlgaDay::end(double nitrogen, Crop1m& crop) const {
  const ExactDay end = ahead_->end(uptake_per_day(nitrogen));
  DayTrace trace = trace_;
  trace.forcing.nitrogen = nitrogen;
  trace.uptake_g_per_m = constants_.dry_to_fresh * end.taken_up;
  trace.lost_n_g_per_m = constants_.dry_to_fresh * end.lost;
  crop = {end.weight, end.reserve};
  trace.biomass_g_per_m = crop.weight;
  trace.tissue_n = crop.reserve;
  return trace;
}

}  // namespace tidelot
