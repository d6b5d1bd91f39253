// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/crop_model.hpp"

namespace tidelot {

CropModel crop_model(const Crop& crop) {
  if (crop.model == GrowthModel::kelp_frond) {
    return kelp_constants(crop);
  }
  return alga_constants(crop);
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
