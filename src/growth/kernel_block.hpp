// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>
#include <optional>

#include "growth/forcing_block.hpp"
#include "growth/temperature_fit.hpp"
#include "tidelot/growth/model.hpp"
#include "tidelot/growth/tile_kernel.hpp"

namespace tidelot {

/// One block's forcing, state and sums.
struct KernelBlock : ForcingBlock {
  alignas(64) BlockRow weight;  ///< W, g FW/m
  BlockRow reserve;             ///< Q, g N/g DW
  BlockRow days_since_harvest;
  BlockRow hauled;           ///< g FW/m
  BlockRow hauled_nitrogen;  ///< g N/m over the dry-to-fresh ratio
  BlockRow harvests;
  // Of steady properties, found once:
  BlockRow f_temperature;
  BlockRow respiration;
  BlockRow f_salinity;
  BlockRow flow;  ///< boundary-layer factor
  // Handed from one pass of a day to the next:
  std::array<BlockRow, 3> light_level;  ///< noon light over Ik at the canopy's nodes
  BlockRow f_light;
  BlockRow net_growth;  ///< m, 1/d
  BlockRow uptake;      ///< a, 1/d
};

/// The mass-transfer form of the boundary layer: h of a nutrient is still + moving U^1/2 (1 +
/// eddies U^5/8)^4/5, in 1/d over Qmax - Qmin per umol/L; the parts as polynomials of temperature.
struct KernelTransfer {
  std::array<TemperatureFit, 2> still, moving;  ///< of ammonium, nitrate
  TemperatureFit eddies;
};

/// The model's constants, folded as far as they go.
struct KernelConstants {
  float t_min, t_opt, t_max, t_below, t_above;  ///< t_opt - t_min, t_opt - t_max
  CurveLines salinity;
  CanopyLight canopy;  ///< weight in g FW/m
  // Exponents are taken to base 2, their slopes times log2(e):
  float growth;       ///< mu_max, 1/d
  float quota_scale;  ///< 1/(1 - Qmin/Qmax)
  float respiration_20;
  float respiration_slope;  ///< log2(Q10)/10
  float nh4_share;
  float k_nh4, k_no3, k_inhibition;
  float uptake_nh4;      ///< Vmax in 1/d over Qmax - Qmin
  float uptake_no3;      ///< the same times Kinh
  float boundary_slope;  ///< -log2(e)/U0
  float q_min, q_max, q_start;
  float loss;
  float inverse_w_max;
  float stocking;
  float harvest_days;
  std::optional<KernelTransfer> transfer;  ///< without it the factor of boundary_slope
};

/// A season of the alga: days in units of its Ik and of its reference light.
struct KernelSeason : SeasonForcing {
  KernelConstants constants;
};

[[nodiscard]] KernelConstants kernel_constants(const AlgaConstants& c, const Husbandry& husbandry);

[[nodiscard]] KernelSeason kernel_season(const KernelForcing& forcing, const Husbandry& husbandry,
                                         const AlgaConstants& constants);

/// Copies the cells from `begin` on into a block and sets their state for the outplant day.
void fill_block(const KernelForcing& forcing, const KernelConstants& c, std::size_t begin,
                KernelBlock& block);

}  // namespace tidelot
