// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/crop_model.hpp"

namespace tidelot {

CropModel crop_model(const Crop& crop, BoundaryLayer layer) {
  if (crop.model == GrowthModel::kelp_frond) {
    return kelp_constants(crop, layer);
  }
  return alga_constants(crop, layer);
}

Husbandry husbandry_of(const Plan& plan) {
  return {plan.farm.line_depth_m, plan.farm.stocking_g_per_m, plan.farm.harvest_days,
          plan.nh4_share, plan.farm.fixed_line ? plan.depth.tidal_range_m : 0.0};
}

Stocked stocked(const Husbandry& husbandry, const AlgaConstants& c) {
  return {husbandry.stocking_g_per_m, husbandry.stocking_g_per_m * c.dry_to_fresh * c.q_start};
}

Stocked stocked(const Husbandry& /*husbandry*/, const KelpConstants& k) {
  const Frond seed{k.start_area, k.start_n, k.start_c};
  return {k.fronds_per_m * kelp::wet_weight(seed, k),
          k.fronds_per_m * kelp::total_nitrogen(seed, k)};
}

Stocked stocked(const Husbandry& husbandry, const CropModel& model) {
  return std::visit([&](const auto& k) { return stocked(husbandry, k); }, model);
}

SeasonResult grow_season(std::span<const DayForcing> days, const Husbandry& husbandry,
                         const CropModel& model) {
  return std::visit([&](const auto& k) { return grow_season(days, husbandry, k); }, model);
}

KernelResult grow_tile(const KernelForcing& forcing, const Husbandry& husbandry,
                       const CropModel& model) {
  return std::visit([&](const auto& k) { return grow_tile(forcing, husbandry, k); }, model);
}

}  // namespace tidelot
