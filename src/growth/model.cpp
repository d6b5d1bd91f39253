// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/model.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "growth/line.hpp"
#include "growth/numbers.hpp"

namespace tidelot {
namespace {

/// Ammonium and nitrate that diffusion and the crop let in together, umol g DW-1 h-1. What holds
/// nitrate back is the ammonium at the surface of the branch.
double branch_uptake(double nh4, double no3, double current, double temperature,
                     const AlgaConstants& c) {
  const double h_nh4 = branch_supply(Nutrient::ammonium, current, temperature, *c.branch);
  const double h_no3 = branch_supply(Nutrient::nitrate, current, temperature, *c.branch);
  const double ammonium = co_limited(nh4, c.vmax_nh4, c.k_nh4, h_nh4);
  const double at_surface = std::max(0.0, nh4 - ammonium / h_nh4);
  const double v_no3 = c.vmax_no3 * c.k_inhibition / (c.k_inhibition + at_surface);
  return ammonium + co_limited(no3, v_no3, c.k_no3, h_no3);
}

}  // namespace

AlgaConstants alga_constants(const Crop& crop, BoundaryLayer layer) {
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
  if (layer == BoundaryLayer::mass_transfer) {
    c.branch = Branch{crop.at("branch_m"), crop.at("surface_m2_per_g")};
  }
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

double ammonium_share(double ammonium, double nitrogen) {
  return nitrogen > 0.0 ? std::clamp(ammonium / nitrogen, 0.0, 1.0) : 0.0;
}

double michaelis_menten(double s, double v_max, double k) { return v_max * s / (k + s); }

double uptake_rate(double nh4, double no3, double current, double temperature,
                   const AlgaConstants& c) {
  if (c.branch) {
    return branch_uptake(nh4, no3, current, temperature, c) * kNitrogenPerDay;
  }
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
  return grow_line(days, AlgaLine(husbandry, constants));
}

}  // namespace tidelot
