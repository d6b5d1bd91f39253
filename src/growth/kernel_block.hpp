// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "growth/temperature_fit.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/growth/model.hpp"
#include "tidelot/growth/tile_kernel.hpp"

namespace tidelot {

/// Cells that grow together: whole vectors of every width, small enough for the first cache.
inline constexpr std::size_t kBlockCells = 128;

enum Property : std::size_t {
  kTemperature,
  kSalinity,
  kAttenuation,
  kNitrogen,
  kCurrent,
  kRadiation,
  kAmmonium,
  kProperties
};

using BlockRow = std::array<float, kBlockCells>;

/// One block's forcing, state and sums. Twelve rows a property, one where it is steady, and one
/// that is set anew every day where it is given day by day. The tail of the last block holds copies
/// of its first cell without a season.
struct alignas(64) KernelBlock {
  std::array<std::array<BlockRow, kMonths>, kProperties> nodes;
  BlockRow latitude_weight;
  BlockRow first_day;  ///< of the season; floats hold days exactly
  BlockRow last_day;
  BlockRow weight;   ///< W, g FW/m
  BlockRow reserve;  ///< Q, g N/g DW
  BlockRow days_since_harvest;
  BlockRow hauled;           ///< g FW/m
  BlockRow hauled_nitrogen;  ///< g N/m over the dry-to-fresh ratio
  BlockRow harvests;
  std::array<BlockRow, kFactors> factor_sum;
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

/// One day of the year, alike in all cells. Light and day length at the first latitude, and the
/// step to the second.
struct KernelDay {
  std::size_t month;
  std::size_t next_month;
  float weight;
  float noon, noon_step;      ///< noon light over Ik; of 1 MJ m-2 d-1 where radiation is given
  float length, length_step;  ///< day length over the reference's light: times a mean it is fI
};

/// A stretch of the salinity curve: factor = slope S + start from `from` on.
struct SalinityLine {
  float from;
  float slope;
  float start;
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
  float salinity_before;                        ///< factor below the first line
  std::vector<SalinityLine> salinity;
  // Exponents are taken to base 2, their slopes times log2(e):
  float top_depth;         ///< of the canopy, m log2(e)
  float canopy_half;       ///< h/2, m log2(e)
  float canopy_outer;      ///< h times the outer node's distance from the middle, m log2(e)
  float shade_per_weight;  ///< 1/m per g FW/m
  float half_tide;         ///< over a fixed line, m; 0: the line floats
  float growth;            ///< mu_max, 1/d
  float quota_scale;       ///< 1/(1 - Qmin/Qmax)
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

/// What a block's days need besides its cells.
struct KernelSeason {
  KernelConstants constants;
  std::array<KernelDay, kDaysPerYear> days;
  std::array<bool, kProperties> steady;
  std::array<bool, kProperties> one_row;  ///< steady or daily: row 0 is the day's value
  bool daily = false;                     ///< some property is
  bool radiation_given;
  bool ammonium_given;
};

[[nodiscard]] KernelConstants kernel_constants(const AlgaConstants& c, const Husbandry& husbandry);

[[nodiscard]] KernelSeason kernel_season(const KernelForcing& forcing, const Husbandry& husbandry,
                                         const AlgaConstants& constants);

/// Sets row 0 of the daily properties of the cells from `begin` on to day d (0 is 1 January).
void set_day(const KernelForcing& forcing, std::size_t begin, std::size_t d, KernelBlock& block);

/// Copies the cells from `begin` on into a block and sets their state for the outplant day.
void fill_block(const KernelForcing& forcing, const KernelConstants& c, std::size_t begin,
                KernelBlock& block);

}  // namespace tidelot
