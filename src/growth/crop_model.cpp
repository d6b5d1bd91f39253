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

SeasonResult grow_season(std::span<const DayForcing> days, const Husbandry& husbandry,
                         const CropModel& model) {
  return std::visit([&](const auto& k) { return grow_season(days, husbandry, k); }, model);
}

KernelResult grow_tile(const KernelForcing& forcing, const Husbandry& husbandry,
                       const CropModel& model) {
  return std::visit([&](const auto& k) { return grow_tile(forcing, husbandry, k); }, model);
}

}  // namespace tidelot
