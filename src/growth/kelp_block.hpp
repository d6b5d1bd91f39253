// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>

#include "growth/forcing_block.hpp"
#include "growth/kelp_day.hpp"

namespace tidelot {

/// Functions of temperature alone, as parabolas of a quarter of a degree each.
class KelpTable {
 public:
  enum Of : std::size_t {
    kUse,         ///< LightCurve::use
    kInhibition,  ///< LightCurve::inhibition times use
    kRespired,    ///< KelpRates::respired_per_day
    kSupply,      ///< blade_supply at 1 m/s, as uptake_per_day of 1 umol/L; 0 without a blade
    kFunctions
  };
  static constexpr double kColdest = -10.0;
  static constexpr double kPerDegree = 4.0;
  static constexpr std::size_t kPieces = 240;
  static constexpr std::size_t kTerms = 3;  ///< constant, linear, square
  static constexpr std::size_t kStride = kFunctions * kTerms;

  explicit KelpTable(const KelpConstants& k);
  /// Term j of a function in piece i stands at [i kStride + function kTerms + j].
  [[nodiscard]] const float* data() const { return terms_.data(); }

 private:
  std::array<float, kPieces * kStride> terms_{};
};

/// One block's forcing and state.
struct KelpBlock : ForcingBlock {
  alignas(64) BlockRow area;            ///< dm2
  BlockRow area_rest;                   ///< what the float of the area has no digits for
  BlockRow n, c;                        ///< reserves, g/g
  std::array<BlockRow, 3> light_level;  ///< noon light at the canopy's nodes, umol m-2 s-1
  // A step's share of KelpRates, alike on all steps of a day:
  BlockRow growth, carbon, respired, uptake;
};

/// The model's constants, folded as far as they go. Exponents are taken to base 2, their slopes
/// times log2(e).
struct KelpKernel {
  CanopyLight canopy;  ///< weight in g DW/m
  KelpTable table;
  CurveLines temperature, salinity;
  float photoperiod_slope, photoperiod_start;  ///< a1, a1 + a2
  float carbon;                                ///< a step of alpha/k_a
  float step;                                  ///< d
  float area_inner, area_tail;                 ///< m1, m2
  float area_scale;                            ///< sqrt(log2(e))/A0
  float erosion;                               ///< -epsilon
  float exudation;                             ///< gamma
  float c_min, c_struct;
  float n_min, n_max, n_struct;
  float nh4_share;
  float uptake;  ///< Jmax as uptake_per_day
  float k_x;
  float flow_rise, flow_slope, flow_rest;  ///< c1, -1/c2, c3
  bool transfer;                           ///< by the mass-transfer form
  float dry_weight;                        ///< structure on a metre of line over area, g/dm2
  float k_c, k_n;
  float full;  ///< what a full nitrogen reserve allows
  Frond seed;
};
[[nodiscard]] KelpKernel kelp_kernel(const KelpConstants& k, const Husbandry& husbandry);

/// A season of kelp: days in umol m-2 s-1 and hours.
struct KelpSeason : SeasonForcing {
  KelpKernel kernel;
};

/// Copies the cells from `begin` on into a block and seeds their fronds.
void fill_block(const KernelForcing& forcing, const Frond& seed, std::size_t begin,
                KelpBlock& block);

}  // namespace tidelot
