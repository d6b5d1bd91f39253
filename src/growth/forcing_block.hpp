// SPDX-License-Identifier: Apache-2.0
// What the kernels of all crops share: the water and the sun of a block of cells that grow
// together.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "tidelot/core/calendar.hpp"
#include "tidelot/core/curve.hpp"
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

/// One block's forcing and the sums of its factors. Twelve rows a property, one where it is steady,
/// and one that is set anew every day where it is given day by day. What follows the cells
/// holds copies of the first without a season.
struct alignas(64) ForcingBlock {
  std::array<std::array<BlockRow, kMonths>, kProperties> nodes;
  BlockRow latitude_weight;
  BlockRow first_day;  ///< of the season; floats hold days exactly
  BlockRow last_day;
  std::array<BlockRow, kFactors> factor_sum;
  std::size_t cells;  ///< of the tile that it holds; what follows them is not grown
};

/// One day of the year, alike in all cells. Light and day length at the first latitude, and the
/// step to the second.
struct KernelDay {
  std::size_t month;
  std::size_t next_month;
  float weight;
  float noon, noon_step;      ///< noon light over a unit; of 1 MJ m-2 d-1 where radiation is given
  float length, length_step;  ///< day length over a unit
  float change, change_step;  ///< DayForcing::day_length_change; 0 where the forcing has none
};

/// What a KernelDay is measured in.
struct LightUnits {
  double light = 1.0;   ///< umol m-2 s-1
  double length = 1.0;  ///< h
};

/// What a block's days need besides its cells and the crop.
struct SeasonForcing {
  std::array<KernelDay, kDaysPerYear> days;  ///< those on which a cell grows are set
  std::array<bool, kProperties> steady;
  std::array<bool, kProperties> one_row;  ///< steady or daily: row 0 is the day's value
  bool daily = false;                     ///< some property is
  bool radiation_given = false;
  bool ammonium_given = false;
};

/// A canopy and the water above it. Exponents are taken to base 2: slopes are times log2(e).
struct CanopyLight {
  float top_depth;         ///< of the canopy, m log2(e)
  float half;              ///< half its height, m log2(e)
  float outer;             ///< height times the outer node's distance from the middle, m log2(e)
  float shade_per_weight;  ///< 1/m per unit of weight on a metre of line
  float half_tide;         ///< over a fixed line, m; 0: the line floats
};
[[nodiscard]] CanopyLight canopy_light(const Husbandry& husbandry, double height_m,
                                       double shade_per_weight);

/// A stretch of a piecewise linear curve: y = slope x + start from `from` on.
struct CurveLine {
  float from;
  float slope;
  float start;
};

/// A Curve for the kernels.
struct CurveLines {
  float before = 0.0F;  ///< y below the first line
  std::vector<CurveLine> lines;
};
[[nodiscard]] CurveLines curve_lines(const Curve& curve);

[[nodiscard]] SeasonForcing season_forcing(const KernelForcing& forcing, const LightUnits& units);

/// Sets row 0 of the daily properties of the cells from `begin` on to day d (0 is 1 January).
void set_day(const KernelForcing& forcing, std::size_t begin, std::size_t d, ForcingBlock& block);

/// Copies the cells from `begin` on into a block.
void fill_forcing(const KernelForcing& forcing, std::size_t begin, ForcingBlock& block);

/// First outplant day and last haul of the block's cells that have a season; the first is the later
/// where none has.
[[nodiscard]] std::array<int, 2> days_of(const ForcingBlock& block);

/// A result of so many cells, all 0.
[[nodiscard]] KernelResult empty_result(std::size_t cells);

/// Days of the season of a block's cell; below 1: none.
[[nodiscard]] inline float season_days(const ForcingBlock& block, std::size_t i) {
  return block.last_day[i] - block.first_day[i] + 1.0F;
}

/// Writes the means of a block's factors into a cell of the result.
void read_factors(const ForcingBlock& block, std::size_t i, std::size_t cell, KernelResult& result);

}  // namespace tidelot
