// SPDX-License-Identifier: Apache-2.0
// A kelp season in every cell of a tile.
#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "growth/kelp_tile.cpp"  // this file, once a target
#include <hwy/foreach_target.h>
// after foreach_target
#include <hwy/highway.h>

#include <algorithm>

#include "growth/kelp_step.hpp"
#include "tidelot/growth/kelp.hpp"

HWY_BEFORE_NAMESPACE();
namespace tidelot::HWY_NAMESPACE {

// A day passes over the block in short passes, whose vectors don't wait for each other.

HWY_INLINE VectorFrond frond_at(const KelpBlock& block, std::size_t i) {
  return {load(block.area, i), load(block.n, i), load(block.c, i), load(block.area_rest, i)};
}

HWY_INLINE void reach_canopy(const KelpSeason& season, KelpBlock& block, const KernelDay& day,
                             std::size_t i) {
  const VectorFrond f = frond_at(block, i);
  const LightLevels level = canopy_light_on_day(
      season, block, season.kernel.canopy, dry_weight(season.kernel, f.area, f.n, f.c), day, i);
  store(level.upper, block.light_level[0], i);
  store(level.middle, block.light_level[1], i);
  store(level.lower, block.light_level[2], i);
}

HWY_INLINE void photosynthesise(const KelpSeason& season, KelpBlock& block, const KernelDay& day,
                                std::size_t i) {
  const KelpKernel& k = season.kernel;
  const TablePlace place = place_in_table(on_day(season, block, kTemperature, day, i));
  const Vector use = from_table(k.table, KelpTable::kUse, place);
  const Vector mean = mean_used_light(
      {load(block.light_level[0], i), load(block.light_level[1], i), load(block.light_level[2], i)},
      use, from_table(k.table, KelpTable::kInhibition, place));
  const Vector hours = between_latitudes(block, day.length, day.length_step, i);
  store(hn::Div(hn::Mul(hn::Mul(all(k.carbon), hours), mean), use), block.carbon, i);
}

HWY_INLINE void find_rates(const KelpSeason& season, KelpBlock& block, const KernelDay& day,
                           Vector today, std::size_t i) {
  const KelpKernel& k = season.kernel;
  const Vector temperature = on_day(season, block, kTemperature, day, i);
  const Vector f_temperature = curve_at(k.temperature, temperature);
  const Vector f_salinity = curve_at(k.salinity, amount_on_day(season, block, kSalinity, day, i));
  const VectorFrond f = frond_at(block, i);
  const Vector counted[kFactors] = {
      f_temperature, f_salinity,
      hn::Min(hn::Div(reserve_factor(f.c, k.c_min), all(k.full)), all(1.0F)),
      hn::Div(reserve_factor(f.n, k.n_min), all(k.full)), all(1.0F)};
  count_factors(block, i, grows_on(block, today, i), counted);

  const Vector photoperiod =
      photoperiod_factor(k, between_latitudes(block, day.change, day.change_step, i));
  store(hn::Mul(hn::Mul(all(k.step), photoperiod), hn::Mul(f_temperature, f_salinity)),
        block.growth, i);
  const TablePlace place = place_in_table(temperature);
  store(hn::Mul(all(k.step), from_table(k.table, KelpTable::kRespired, place)), block.respired, i);
  const Vector nitrogen = amount_on_day(season, block, kNitrogen, day, i);
  const Vector nitrate =
      hn::Sub(nitrogen, ammonium_on_day(season, block, k.nh4_share, nitrogen, day, i));
  const Vector current = amount_on_day(season, block, kCurrent, day, i);
  store(hn::Mul(all(k.step), uptake(k, nitrate, current, place)), block.uptake, i);
}

/// Cells outside their season stand still.
HWY_INLINE void take_step(const KelpKernel& k, KelpBlock& block, Vector today, std::size_t i) {
  const VectorFrond start = frond_at(block, i);
  const VectorFrond end = step(k, start,
                               {load(block.growth, i), load(block.carbon, i),
                                load(block.respired, i), load(block.uptake, i)});
  const auto grows = grows_on(block, today, i);
  store(hn::IfThenElse(grows, end.area, start.area), block.area, i);
  store(hn::IfThenElse(grows, end.rest, start.rest), block.area_rest, i);
  store(hn::IfThenElse(grows, end.n, start.n), block.n, i);
  store(hn::IfThenElse(grows, end.c, start.c), block.c, i);
}

/// Grows a block, whose cells are those from `begin` on, from the first outplant day to the last
/// haul of them.
void grow_kelp_block(const KelpSeason& season, const KernelForcing& forcing, std::size_t begin,
                     int first, int last, KelpBlock& block) {
  for (int number = first; number <= last; ++number) {
    const auto d = static_cast<std::size_t>((number - 1) % kDaysPerYear);
    const KernelDay& day = season.days[d];
    if (season.daily) {
      set_day(forcing, begin, d, block);
    }
    const Vector today = all(static_cast<float>(number));
    over_block(block, [&](std::size_t i) HWY_ATTR { reach_canopy(season, block, day, i); });
    over_block(block, [&](std::size_t i) HWY_ATTR { photosynthesise(season, block, day, i); });
    over_block(block, [&](std::size_t i) HWY_ATTR { find_rates(season, block, day, today, i); });
    for (int taken = 0; taken < kKelpSteps; ++taken) {
      over_block(block, [&](std::size_t i) HWY_ATTR { take_step(season.kernel, block, today, i); });
    }
  }
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace tidelot {
namespace {

HWY_EXPORT(grow_kelp_block);

/// Net of the seed; 0 where there was no season.
void read_block(const KelpBlock& block, const Frond& seed, const KelpConstants& k,
                std::size_t begin, KernelResult& result) {
  const std::size_t count = std::min(kBlockCells, result.yield_g_per_m.size() - begin);
  for (std::size_t i = 0; i < count; ++i) {
    if (season_days(block, i) < 1.0F) {
      continue;
    }
    const Frond frond{block.area[i], block.n[i], block.c[i]};
    const double hauled = k.fronds_per_m * kelp::wet_weight(frond, k);
    result.yield_g_per_m[begin + i] =
        static_cast<float>(hauled - k.fronds_per_m * kelp::wet_weight(seed, k));
    result.nitrogen_g_per_m[begin + i] = static_cast<float>(
        k.fronds_per_m * (kelp::total_nitrogen(frond, k) - kelp::total_nitrogen(seed, k)));
    result.harvests[begin + i] = hauled > 0.0 ? 1 : 0;
    read_factors(block, i, begin + i, result);
  }
}

}  // namespace

KernelResult grow_tile(const KernelForcing& forcing, const Husbandry& husbandry,
                       const KelpConstants& constants) {
  KernelResult result = empty_result(forcing.cells);
  if (forcing.cells == 0) {
    return result;
  }
  const KelpSeason season{season_forcing(forcing, {}), kelp_kernel(constants, husbandry)};
  KelpBlock block{};
  for (std::size_t begin = 0; begin < forcing.cells; begin += kBlockCells) {
    fill_block(forcing, season.kernel.seed, begin, block);
    const auto [first, last] = days_of(block);
    HWY_DYNAMIC_DISPATCH(grow_kelp_block)(season, forcing, begin, first, last, block);
    read_block(block, season.kernel.seed, constants, begin, result);
  }
  return result;
}

}  // namespace tidelot
#endif
