// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/model.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "growth/exact_day.hpp"
#include "growth/numbers.hpp"
#include "tidelot/season/sun.hpp"

namespace tidelot {
namespace {

/// What hangs on a metre of line.
struct Crop1m {
  double weight;   ///< W, g FW/m
  double reserve;  ///< Q, g N/g DW
};

/// Mean over half the day (the other half mirrors it) of tanh(I/Ik), light being `noon` at noon.
double mean_of_day(double noon_over_ik) {
  double mean = 0.0;
  for (std::size_t i = 0; i < kGaussNodes.size(); ++i) {
    mean += kGaussWeights[i] *
            std::tanh(noon_over_ik * std::sin(std::numbers::pi / 2.0 * kGaussNodes[i]));
  }
  return mean;
}

/// Light factor: day length times the mean of tanh(I/Ik) over day and canopy, over the same of the
/// culture behind mu_max. The canopy shades itself with its weight at the start of the day.
double light_factor(const DayForcing& day, double weight, double line_depth_m,
                    const AlgaConstants& c) {
  const double height = c.canopy_height_m;
  const double top = std::max(0.0, line_depth_m - height / 2.0);
  const double shading =
      day.attenuation + c.shade_m2_per_g * (weight * c.dry_to_fresh / c.canopy_width_m) / height;
  const double noon = noon_flux(day.par_mol, day.day_length_h) * std::exp(-day.attenuation * top);
  double mean = 0.0;
  for (std::size_t i = 0; i < kGaussNodes.size(); ++i) {
    mean += kGaussWeights[i] *
            mean_of_day(noon * std::exp(-shading * kGaussNodes[i] * height) / c.light_ik);
  }
  return day.day_length_h * mean / (c.light_ref_h * std::tanh(c.light_ref / c.light_ik));
}

/// One day from outplant to its end, before the cut.
DayTrace grow_day(const DayForcing& day, Crop1m& crop, const Husbandry& husbandry,
                  const AlgaConstants& c) {
  DayTrace trace{};
  trace.forcing = day;
  trace.f_temperature = ctmi(day.temperature, c.t_min, c.t_opt, c.t_max);
  trace.f_salinity = c.salinity(day.salinity);
  trace.f_light = light_factor(day, crop.weight, husbandry.line_depth_m, c);
  trace.f_nitrogen = quota_factor(crop.reserve, c.q_min, c.q_max);
  trace.f_density = std::max(0.0, 1.0 - crop.weight / c.w_max);
  const double gross = c.mu_max_per_day * trace.f_temperature * trace.f_salinity * trace.f_light *
                       trace.f_nitrogen * trace.f_density;
  const double respired = c.respiration_20 * std::pow(c.q10, (day.temperature - 20.0) / 10.0);
  const double ammonium = husbandry.nh4_share * day.nitrogen;
  const double uptake = uptake_rate(ammonium, day.nitrogen - ammonium, day.current, c);
  const ExactDay step = exact_day({crop.weight, crop.reserve, gross - respired, c.loss_per_day,
                                   uptake / (c.q_max - c.q_min), c.q_min, c.q_max});
  trace.growth_per_day = gross - respired - c.loss_per_day;
  trace.uptake_g_per_m = c.dry_to_fresh * step.taken_up;
  trace.lost_n_g_per_m = c.dry_to_fresh * step.lost;
  crop = {step.weight, step.reserve};
  trace.biomass_g_per_m = crop.weight;
  trace.tissue_n = crop.reserve;
  return trace;
}

/// What is cut at the end of a day: all on the last one, what is above the stocking weight every
/// harvest_days, else nothing.
double cut_of_day(std::size_t day, std::size_t days, double weight, const Husbandry& husbandry) {
  if (day == days) {
    return weight;
  }
  const bool harvest = day % static_cast<std::size_t>(husbandry.harvest_days) == 0;
  return harvest ? std::max(0.0, weight - husbandry.stocking_g_per_m) : 0.0;
}

void add_to(SeasonResult& season, const DayTrace& day, double dry_to_fresh) {
  season.yield_g_per_m += day.harvest_g_per_m;
  season.nitrogen_g_per_m += day.harvest_g_per_m * dry_to_fresh * day.tissue_n;
  season.uptake_g_per_m += day.uptake_g_per_m;
  season.lost_n_g_per_m += day.lost_n_g_per_m;
  season.harvests += day.harvest_g_per_m > 0.0 ? 1 : 0;
}

}  // namespace

AlgaConstants alga_constants(const Crop& crop) {
  AlgaConstants c{};
  c.mu_max_per_day = crop.at("mu_max_per_day");
  c.t_min = crop.at("t_min");
  c.t_opt = crop.at("t_opt");
  c.t_max = crop.at("t_max");
  c.light_ik = crop.at("light_ik");
  c.light_ref_h = crop.at("light_ref_h");
  c.light_ref = crop.at("light_ref");
  c.vmax_nh4 = crop.at("vmax_nh4");
  c.k_nh4 = crop.at("k_nh4");
  c.vmax_no3 = crop.at("vmax_no3");
  c.k_no3 = crop.at("k_no3");
  c.k_inhibition = crop.at("k_inhibition");
  c.q_min = crop.at("q_min");
  c.q_max = crop.at("q_max");
  c.q_start = crop.at("q_start");
  c.respiration_20 = crop.at("respiration_20");
  c.q10 = crop.at("q10");
  c.loss_per_day = crop.at("loss_per_day");
  c.dry_to_fresh = crop.at("dry_to_fresh");
  c.w_max = crop.at("w_max");
  c.shade_m2_per_g = crop.at("shade_m2_per_g");
  c.canopy_width_m = crop.at("canopy_width_m");
  c.canopy_height_m = crop.at("canopy_height_m");
  c.u0 = crop.at("u0");
  c.salinity = crop.salinity;
  if (!(c.t_opt > (c.t_min + c.t_max) / 2.0)) {
    throw std::invalid_argument("t_opt must lie above the middle of t_min and t_max");
  }
  return c;
}

double ctmi(double t, double t_min, double t_opt, double t_max) {
  if (t <= t_min || t >= t_max) {
    return 0.0;
  }
  const double below = t_opt - t_min;
  const double rise = t - t_min;
  return (t - t_max) * rise * rise /
         (below * (below * (t - t_opt) - (t_opt - t_max) * (t_opt + t_min - 2.0 * t)));
}

double michaelis_menten(double s, double v_max, double k) { return v_max * s / (k + s); }

double uptake_rate(double nh4, double no3, double current, const AlgaConstants& c) {
  const double inhibition = c.k_inhibition / (c.k_inhibition + nh4);
  const double still = michaelis_menten(nh4, c.vmax_nh4, c.k_nh4) +
                       michaelis_menten(no3, c.vmax_no3, c.k_no3) * inhibition;
  return still * kNitrogenPerDay * -std::expm1(-current / c.u0);
}

double quota_factor(double q, double q_min, double q_max) {
  return (1.0 - q_min / q) / (1.0 - q_min / q_max);
}

SeasonResult grow_season(std::span<const DayForcing> days, const Husbandry& husbandry,
                         const AlgaConstants& constants) {
  SeasonResult season;
  if (days.empty()) {
    return season;
  }
  season.days.reserve(days.size());
  Crop1m crop{husbandry.stocking_g_per_m, constants.q_start};
  for (const DayForcing& day : days) {
    DayTrace& trace = season.days.emplace_back(grow_day(day, crop, husbandry, constants));
    trace.harvest_g_per_m = cut_of_day(season.days.size(), days.size(), crop.weight, husbandry);
    crop.weight -= trace.harvest_g_per_m;
    add_to(season, trace, constants.dry_to_fresh);
  }
  season.yield_g_per_m -= husbandry.stocking_g_per_m;
  season.nitrogen_g_per_m -=
      husbandry.stocking_g_per_m * constants.dry_to_fresh * constants.q_start;
  return season;
}

}  // namespace tidelot
