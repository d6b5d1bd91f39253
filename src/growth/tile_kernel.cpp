// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/tile_kernel.hpp"

#include <algorithm>

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "growth/tile_kernel.cpp"  // this file, once a target
#include <hwy/foreach_target.h>
// after foreach_target
#include <hwy/highway.h>

#include "growth/kernel_step.hpp"

HWY_BEFORE_NAMESPACE();
namespace tidelot::HWY_NAMESPACE {

// A day passes over the block four times. One pass over everything would be one long chain of
// operations that wait for each other; in short passes the chains of several vectors overlap.

/// First pass: the light that reaches the canopy.
HWY_INLINE void reach_canopy(const KernelSeason& season, KernelBlock& block, const KernelDay& day,
                             std::size_t i) {
  const LightLevels level =
      canopy_light_on_day(season, block, season.constants.canopy, load(block.weight, i), day, i);
  store(level.upper, block.light_level[0], i);
  store(level.middle, block.light_level[1], i);
  store(level.lower, block.light_level[2], i);
}

/// Second pass: the light factor.
HWY_INLINE void use_light(KernelBlock& block, const KernelDay& day, std::size_t i) {
  const Vector mean = mean_light({load(block.light_level[0], i), load(block.light_level[1], i),
                                  load(block.light_level[2], i)});
  const Vector length = between_latitudes(block, day.length, day.length_step, i);
  store(hn::Mul(length, mean), block.f_light, i);
}

/// The day's five response factors.
struct Factors {
  Vector temperature, salinity, light, nitrogen, density;
};

HWY_INLINE Factors factors_of_day(const KernelSeason& season, const KernelBlock& block,
                                  const KernelDay& day, std::size_t i, Vector temperature) {
  const KernelConstants& k = season.constants;
  const Vector empty = hn::Div(all(k.q_min), load(block.reserve, i));
  const Vector crowded = hn::Mul(load(block.weight, i), all(k.inverse_w_max));
  return {season.steady[kTemperature] ? load(block.f_temperature, i)
                                      : temperature_factor(k, temperature),
          season.steady[kSalinity]
              ? load(block.f_salinity, i)
              : curve_at(k.salinity, amount_on_day(season, block, kSalinity, day, i)),
          load(block.f_light, i), hn::Mul(all(k.quota_scale), hn::Sub(all(1.0F), empty)),
          hn::Max(hn::Sub(all(1.0F), crowded), all(0.0F))};
}

/// The reserve at the end of the day: Q + (a (Qmax - Q) - m Q) (1 - e^(-s))/s, s = a + m.
HWY_INLINE Vector next_reserve(const KernelConstants& k, Vector reserve, Vector a, Vector m) {
  const Vector sum = hn::Add(a, m);
  const Vector s = hn::IfThenElse(hn::Eq(sum, all(0.0F)), all(1e-12F), sum);
  const Vector share =
      hn::Div(exp2_minus_1(Lanes(), hn::Mul(all(-kLog2E), s)), s);  // -(1 - e^(-s))/s
  const Vector push = times_plus(m, reserve, hn::Mul(a, hn::Sub(reserve, all(k.q_max))));
  const Vector free = times_plus(share, push, reserve);
  return hn::Min(hn::Max(free, all(k.q_min)), all(k.q_max));
}

/// Cuts where a harvest is due: what is above the stocking weight, on the last day all.
template <class Mask>
HWY_INLINE void haul(const KernelConstants& k, KernelBlock& block, std::size_t i, Mask due,
                     Mask last) {
  const Vector weight = load(block.weight, i);
  const Vector above = hn::Max(hn::Sub(weight, all(k.stocking)), all(0.0F));
  const Vector cut = hn::IfThenElseZero(due, hn::IfThenElse(last, weight, above));
  const Vector one = hn::IfThenElseZero(hn::Gt(cut, all(0.0F)), all(1.0F));
  store(hn::Sub(weight, cut), block.weight, i);
  store(hn::Add(load(block.hauled, i), cut), block.hauled, i);
  store(times_plus(cut, load(block.reserve, i), load(block.hauled_nitrogen, i)),
        block.hauled_nitrogen, i);
  store(hn::Add(load(block.harvests, i), one), block.harvests, i);
}

HWY_INLINE Vector uptake_of_day(const KernelSeason& season, const KernelBlock& block,
                                const KernelDay& day, std::size_t i, Vector temperature) {
  const KernelConstants& k = season.constants;
  const Vector nitrogen = amount_on_day(season, block, kNitrogen, day, i);
  const Vector nh4 = ammonium_on_day(season, block, k.nh4_share, nitrogen, day, i);
  if (k.transfer) {
    const Vector current = amount_on_day(season, block, kCurrent, day, i);
    return transfer_uptake(k, nitrogen, nh4, temperature, current);
  }
  const Vector flow = season.steady[kCurrent]
                          ? load(block.flow, i)
                          : boundary_factor(k, amount_on_day(season, block, kCurrent, day, i));
  return hn::Mul(flow, uptake(k, nitrogen, nh4));
}

/// Third pass: net growth and uptake.
HWY_INLINE void find_rates(const KernelSeason& season, KernelBlock& block, const KernelDay& day,
                           Vector today, std::size_t i) {
  const KernelConstants& k = season.constants;
  const Vector temperature = on_day(season, block, kTemperature, day, i);
  const Factors f = factors_of_day(season, block, day, i, temperature);
  const Vector counted[kFactors] = {f.temperature, f.salinity, hn::Min(f.light, all(1.0F)),
                                    f.nitrogen, f.density};
  count_factors(block, i, grows_on(block, today, i), counted);
  const Vector gross =
      hn::Mul(hn::Mul(hn::Mul(all(k.growth), f.temperature), hn::Mul(f.salinity, f.light)),
              hn::Mul(f.nitrogen, f.density));
  const Vector respired =
      season.steady[kTemperature] ? load(block.respiration, i) : respiration(k, temperature);
  store(hn::Sub(gross, respired), block.net_growth, i);
  store(uptake_of_day(season, block, day, i, temperature), block.uptake, i);
}

/// Fourth pass: weight and reserve at the end of the day, and the cut. Cells outside their season
/// stand still.
HWY_INLINE void end_day(const KernelConstants& k, KernelBlock& block, Vector today, std::size_t i) {
  const auto grows = grows_on(block, today, i);
  const Vector weight = load(block.weight, i);
  const Vector reserve = load(block.reserve, i);
  const Vector m = load(block.net_growth, i);
  const Vector grown =
      hn::Mul(weight, exp2(Lanes(), hn::Mul(all(kLog2E), hn::Sub(m, all(k.loss)))));
  const Vector next = next_reserve(k, reserve, load(block.uptake, i), m);
  store(hn::IfThenElse(grows, grown, weight), block.weight, i);
  store(hn::IfThenElse(grows, next, reserve), block.reserve, i);
  const Vector since =
      hn::Add(load(block.days_since_harvest, i), hn::IfThenElseZero(grows, all(1.0F)));
  const auto interval = hn::Eq(since, all(k.harvest_days));
  store(hn::IfThenElse(interval, all(0.0F), since), block.days_since_harvest, i);
  const auto last = hn::Eq(today, load(block.last_day, i));
  const auto due = hn::And(grows, hn::Or(interval, last));
  if (!hn::AllFalse(Lanes(), due)) {
    haul(k, block, i, due, last);
  }
}

void set_steady_factors(const KernelSeason& season, KernelBlock& block) {
  const KernelConstants& k = season.constants;
  over_block(block, [&](std::size_t i) HWY_ATTR {
    const Vector zero = all(0.0F);
    const Vector temperature = load(block.nodes[kTemperature][0], i);
    store(temperature_factor(k, temperature), block.f_temperature, i);
    store(respiration(k, temperature), block.respiration, i);
    store(curve_at(k.salinity, hn::Max(load(block.nodes[kSalinity][0], i), zero)), block.f_salinity,
          i);
    store(boundary_factor(k, hn::Max(load(block.nodes[kCurrent][0], i), zero)), block.flow, i);
  });
}

/// Grows a block, whose cells are those from `begin` on, from the first outplant day to the last
/// haul of them.
void grow_block(const KernelSeason& season, const KernelForcing& forcing, std::size_t begin,
                int first, int last, KernelBlock& block) {
  set_steady_factors(season, block);
  for (int number = first; number <= last; ++number) {
    const auto d = static_cast<std::size_t>((number - 1) % kDaysPerYear);
    const KernelDay& day = season.days[d];
    if (season.daily) {
      set_day(forcing, begin, d, block);
    }
    const Vector today = all(static_cast<float>(number));
    over_block(block, [&](std::size_t i) HWY_ATTR { reach_canopy(season, block, day, i); });
    over_block(block, [&](std::size_t i) HWY_ATTR { use_light(block, day, i); });
    over_block(block, [&](std::size_t i) HWY_ATTR { find_rates(season, block, day, today, i); });
    over_block(block, [&](std::size_t i) HWY_ATTR { end_day(season.constants, block, today, i); });
  }
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace tidelot {
namespace {

HWY_EXPORT(grow_block);

/// Net of what was stocked; 0 where there was no season.
void read_block(const KernelBlock& block, const KernelConstants& k, float dry_to_fresh,
                std::size_t begin, KernelResult& result) {
  const std::size_t count = std::min(kBlockCells, result.yield_g_per_m.size() - begin);
  for (std::size_t i = 0; i < count; ++i) {
    if (season_days(block, i) < 1.0F) {
      continue;
    }
    result.yield_g_per_m[begin + i] = block.hauled[i] - k.stocking;
    result.nitrogen_g_per_m[begin + i] =
        dry_to_fresh * (block.hauled_nitrogen[i] - k.stocking * k.q_start);
    result.harvests[begin + i] = static_cast<std::uint16_t>(block.harvests[i]);
    read_factors(block, i, begin + i, result);
  }
}

}  // namespace

KernelResult grow_tile(const KernelForcing& forcing, const Husbandry& husbandry,
                       const AlgaConstants& constants) {
  KernelResult result = empty_result(forcing.cells);
  if (forcing.cells == 0) {
    return result;
  }
  const KernelSeason season = kernel_season(forcing, husbandry, constants);
  KernelBlock block{};
  for (std::size_t begin = 0; begin < forcing.cells; begin += kBlockCells) {
    fill_block(forcing, season.constants, begin, block);
    const auto [first, last] = days_of(block);
    HWY_DYNAMIC_DISPATCH(grow_block)(season, forcing, begin, first, last, block);
    read_block(block, season.constants, static_cast<float>(constants.dry_to_fresh), begin, result);
  }
  return result;
}

}  // namespace tidelot
#endif
