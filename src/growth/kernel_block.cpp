// SPDX-License-Identifier: Apache-2.0
#include "growth/kernel_block.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "growth/numbers.hpp"

namespace tidelot {
namespace {

constexpr double kLog2E = std::numbers::log2e;

float narrow(double value) { return static_cast<float>(value); }

void set_nitrogen(KernelConstants& k, const AlgaConstants& c, double nh4_share) {
  k.nh4_share = narrow(nh4_share);
  k.k_nh4 = narrow(c.k_nh4);
  k.k_no3 = narrow(c.k_no3);
  k.k_inhibition = narrow(c.k_inhibition);
  const double per_day = kNitrogenPerDay / (c.q_max - c.q_min);
  k.uptake_nh4 = narrow(per_day * c.vmax_nh4);
  k.uptake_no3 = narrow(per_day * c.vmax_no3 * c.k_inhibition);
  k.boundary_slope = narrow(-kLog2E / c.u0);
  k.q_min = narrow(c.q_min);
  k.q_max = narrow(c.q_max);
  k.q_start = narrow(c.q_start);
}

KernelTransfer kernel_transfer(const AlgaConstants& c) {
  const Branch& branch = *c.branch;
  const double per_day = kNitrogenPerDay / (c.q_max - c.q_min);
  const auto eddies = [&](double t) {
    return branch_eddies({1.0, branch.width_m, sea_water_viscosity(t)});
  };
  KernelTransfer out{};
  out.eddies = temperature_fit(eddies);
  for (const Nutrient nutrient : {Nutrient::ammonium, Nutrient::nitrate}) {
    const auto still = [&](double t) { return per_day * branch_supply(nutrient, 0.0, t, branch); };
    const auto i = static_cast<std::size_t>(nutrient);
    out.still[i] = temperature_fit(still);
    out.moving[i] = temperature_fit([&](double t) {
      return (per_day * branch_supply(nutrient, 1.0, t, branch) - still(t)) /
             std::pow(1.0 + eddies(t), 0.8);
    });
  }
  return out;
}

}  // namespace

KernelConstants kernel_constants(const AlgaConstants& c, const Husbandry& husbandry) {
  KernelConstants k{};
  k.t_min = narrow(c.t_min);
  k.t_opt = narrow(c.t_opt);
  k.t_max = narrow(c.t_max);
  k.t_below = narrow(c.t_opt - c.t_min);
  k.t_above = narrow(c.t_opt - c.t_max);
  k.salinity = curve_lines(c.salinity);
  k.canopy =
      canopy_light(husbandry, c.canopy_height_m,
                   c.shade_m2_per_g * c.dry_to_fresh / (c.canopy_width_m * c.canopy_height_m));
  set_nitrogen(k, c, husbandry.nh4_share);
  k.quota_scale = narrow(1.0 / (1.0 - c.q_min / c.q_max));
  k.growth = narrow(c.mu_max_per_day);
  k.respiration_20 = narrow(c.respiration_20);
  k.respiration_slope = narrow(std::log2(c.q10) / 10.0);
  k.loss = narrow(c.loss_per_day);
  k.inverse_w_max = narrow(1.0 / c.w_max);
  k.stocking = narrow(husbandry.stocking_g_per_m);
  k.harvest_days = static_cast<float>(husbandry.harvest_days);
  if (c.branch) {
    k.transfer = kernel_transfer(c);
  }
  return k;
}

KernelSeason kernel_season(const KernelForcing& forcing, const Husbandry& husbandry,
                           const AlgaConstants& c) {
  const double reference = c.light_ref_h * std::tanh(c.light_ref / c.light_ik);
  return {season_forcing(forcing, {c.light_ik, reference}), kernel_constants(c, husbandry)};
}

void fill_block(const KernelForcing& forcing, const KernelConstants& c, std::size_t begin,
                KernelBlock& block) {
  fill_forcing(forcing, begin, block);
  block.weight.fill(c.stocking);
  block.reserve.fill(c.q_start);
  for (BlockRow* row :
       {&block.days_since_harvest, &block.hauled, &block.hauled_nitrogen, &block.harvests}) {
    row->fill(0.0F);
  }
}

}  // namespace tidelot
