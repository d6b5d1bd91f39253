// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <variant>

#include "tidelot/core/crop.hpp"
#include "tidelot/growth/kelp.hpp"
#include "tidelot/growth/model.hpp"
#include "tidelot/growth/tile_kernel.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// The constants of a crop, whichever model grows it.
using CropModel = std::variant<AlgaConstants, KelpConstants>;

/// The model that the profile names. Throws std::invalid_argument where its constants contradict
/// each other.
[[nodiscard]] CropModel crop_model(const Crop& crop, BoundaryLayer layer);

/// How the plan keeps the crop.
[[nodiscard]] Husbandry husbandry_of(const Plan& plan);

/// What is put out on a metre of line.
struct Stocked {
  double fresh_g_per_m = 0.0;
  double nitrogen_g_per_m = 0.0;
};
[[nodiscard]] Stocked stocked(const Husbandry& husbandry, const AlgaConstants& constants);
[[nodiscard]] Stocked stocked(const Husbandry& husbandry, const KelpConstants& constants);
[[nodiscard]] Stocked stocked(const Husbandry& husbandry, const CropModel& model);

[[nodiscard]] SeasonResult grow_season(std::span<const DayForcing> days, const Husbandry& husbandry,
                                       const CropModel& model);

[[nodiscard]] KernelResult grow_tile(const KernelForcing& forcing, const Husbandry& husbandry,
                                     const CropModel& model);

}  // namespace tidelot
