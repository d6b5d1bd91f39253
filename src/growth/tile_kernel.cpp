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
  Vector noon = times_plus(load(block.latitude_weight, i), all(day.noon_step), all(day.noon));
  if (season.radiation_given) {
    noon = hn::Mul(noon, amount_on_day(season, block, kRadiation, day, i));
  }
  const Vector attenuation = amount_on_day(season, block, kAttenuation, day, i);
  if (season.constants.half_tide > 0.0F) {
    noon = hn::Mul(noon, tide_factor(season.constants, attenuation));
  }
  const LightLevels level =
      light_levels(season.constants, noon, attenuation, load(block.weight, i));
  store(level.upper, block.light_level[0], i);
  store(level.middle, block.light_level[1], i);
  store(level.lower, block.light_level[2], i);
}

/// Second pass: the light factor.
HWY_INLINE void use_light(KernelBlock& block, const KernelDay& day, std::size_t i) {
  const Vector mean = mean_light({load(block.light_level[0], i), load(block.light_level[1], i),
                                  load(block.light_level[2], i)});
  const Vector length =
      times_plus(load(block.latitude_weight, i), all(day.length_step), all(day.length));
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
              : salinity_factor(k, amount_on_day(season, block, kSalinity, day, i)),
          load(block.f_light, i), hn::Mul(all(k.quota_scale), hn::Sub(all(1.0F), empty)),
          hn::Max(hn::Sub(all(1.0F), crowded), all(0.0F))};
}

template <class Mask>
HWY_INLINE void count_factors(KernelBlock& block, std::size_t i, Mask grows, const Factors& f) {
  const Vector day[kFactors] = {f.temperature, f.salinity, hn::Min(f.light, all(1.0F)), f.nitrogen,
                                f.density};
  for (std::size_t j = 0; j < kFactors; ++j) {
    BlockRow& sum = block.factor_sum[j];
    store(hn::Add(load(sum, i), hn::IfThenElseZero(grows, day[j])), sum, i);
  }
}

/// The reserve at the end of the day: Q + (a (Qmax - Q) - m Q) (1 - e^(-s))/s, s = a + m.
HWY_INLINE Vector next_reserve(const KernelConstants& k, Vector reserve, Vector a, Vector m) {
  const Vector sum = hn::Add(a, m);
  const Vector s = hn::IfThenElse(hn::Eq(sum, all(0.0F)), all(1e-12F), sum);
  const Vector share =
      hn::Div(exp2_minus_1(Lanes(), hn::Mul(all(-kLog2E), s)), s);  // -(1 - e^(-s))/s
  const Vector push = hn::Sub(hn::Mul(m, reserve), hn::Mul(a, hn::Sub(all(k.q_max), reserve)));
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

HWY_INLINE auto grows_on(const KernelBlock& block, Vector today, std::size_t i) {
  return hn::And(hn::Ge(today, load(block.first_day, i)), hn::Le(today, load(block.last_day, i)));
}

HWY_INLINE Vector uptake_of_day(const KernelSeason& season, const KernelBlock& block,
                                const KernelDay& day, std::size_t i, Vector temperature) {
  const KernelConstants& k = season.constants;
  const Vector nitrogen = amount_on_day(season, block, kNitrogen, day, i);
  const Vector nh4 = season.ammonium_given
                         ? hn::Min(amount_on_day(season, block, kAmmonium, day, i), nitrogen)
                         : hn::Mul(all(k.nh4_share), nitrogen);
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
  count_factors(block, i, grows_on(block, today, i), f);
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
  for (std::size_t i = 0; i < kBlockCells; i += hn::Lanes(Lanes())) {
    const Vector zero = all(0.0F);
    const Vector temperature = load(block.nodes[kTemperature][0], i);
    store(temperature_factor(k, temperature), block.f_temperature, i);
    store(respiration(k, temperature), block.respiration, i);
    store(salinity_factor(k, hn::Max(load(block.nodes[kSalinity][0], i), zero)), block.f_salinity,
          i);
    store(boundary_factor(k, hn::Max(load(block.nodes[kCurrent][0], i), zero)), block.flow, i);
  }
}

template <class Pass>
HWY_INLINE void over_block(const Pass& pass) {
  for (std::size_t i = 0; i < kBlockCells; i += hn::Lanes(Lanes())) {
    pass(i);
  }
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
    over_block([&](std::size_t i) HWY_ATTR { reach_canopy(season, block, day, i); });
    over_block([&](std::size_t i) HWY_ATTR { use_light(block, day, i); });
    over_block([&](std::size_t i) HWY_ATTR { find_rates(season, block, day, today, i); });
    over_block([&](std::size_t i) HWY_ATTR { end_day(season.constants, block, today, i); });
  }
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace tidelot {
namespace {

HWY_EXPORT(grow_block);

/// First outplant day and last haul of the block's cells that have a season.
std::array<int, 2> days_of(const KernelBlock& block) {
  std::array<int, 2> days{2 * kDaysPerYear, 0};
  for (std::size_t i = 0; i < kBlockCells; ++i) {
    if (block.first_day[i] <= block.last_day[i]) {
      days[0] = std::min(days[0], static_cast<int>(block.first_day[i]));
      days[1] = std::max(days[1], static_cast<int>(block.last_day[i]));
    }
  }
  return days;
}

/// Net of what was stocked; 0 where there was no season.
void read_block(const KernelBlock& block, const KernelConstants& k, float dry_to_fresh,
                std::size_t begin, KernelResult& result) {
  const std::size_t count = std::min(kBlockCells, result.yield_g_per_m.size() - begin);
  for (std::size_t i = 0; i < count; ++i) {
    const float days = block.last_day[i] - block.first_day[i] + 1.0F;
    if (days < 1.0F) {
      continue;
    }
    result.yield_g_per_m[begin + i] = block.hauled[i] - k.stocking;
    result.nitrogen_g_per_m[begin + i] =
        dry_to_fresh * (block.hauled_nitrogen[i] - k.stocking * k.q_start);
    result.harvests[begin + i] = static_cast<std::uint16_t>(block.harvests[i]);
    for (std::size_t j = 0; j < kFactors; ++j) {
      result.mean_factor[j][begin + i] = block.factor_sum[j][i] / days;
    }
  }
}

}  // namespace

KernelResult grow_tile(const KernelForcing& forcing, const Husbandry& husbandry,
                       const AlgaConstants& constants) {
  KernelResult result;
  if (forcing.cells == 0) {
    return result;
  }
  const KernelSeason season = kernel_season(forcing, husbandry, constants);
  result.yield_g_per_m.resize(forcing.cells);
  result.nitrogen_g_per_m.resize(forcing.cells);
  result.harvests.resize(forcing.cells);
  for (auto& factor : result.mean_factor) {
    factor.resize(forcing.cells);
  }
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
