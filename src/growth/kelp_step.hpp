// SPDX-License-Identifier: Apache-2.0
// The equations of kelp_response.cpp and kelp_day.cpp, one vector of cells at a time. Compiled once
// a target.
#if defined(TIDELOT_GROWTH_KELP_STEP) == defined(HWY_TARGET_TOGGLE)
#ifdef TIDELOT_GROWTH_KELP_STEP
#undef TIDELOT_GROWTH_KELP_STEP
#else
#define TIDELOT_GROWTH_KELP_STEP
#endif

#include <hwy/highway.h>

#include <cmath>
#include <numbers>

#include "growth/forcing_vector.hpp"
#include "growth/kelp_block.hpp"
#include "growth/numbers.hpp"

HWY_BEFORE_NAMESPACE();
namespace tidelot::HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

/// A place in a KelpTable: the piece's first term and how far along it is, 0..1.
struct TablePlace {
  hn::Vec<hn::RebindToSigned<Lanes>> first;
  Vector along;
};

HWY_INLINE TablePlace place_in_table(Vector temperature) {
  const hn::RebindToSigned<Lanes> di;
  constexpr auto kLast = static_cast<float>(KelpTable::kPieces);
  const Vector warmer = hn::Sub(temperature, all(static_cast<float>(KelpTable::kColdest)));
  const Vector place =
      hn::Min(hn::Max(hn::Mul(warmer, all(static_cast<float>(KelpTable::kPerDegree))), all(0.0F)),
              all(kLast));
  const Vector piece = hn::Min(hn::Floor(place), all(kLast - 1.0F));
  const auto number = hn::ConvertTo(di, piece);
  return {hn::Mul(number, hn::Set(di, static_cast<std::int32_t>(KelpTable::kStride))),
          hn::Sub(place, piece)};
}

HWY_INLINE Vector from_table(const KelpTable& table, KelpTable::Of function,
                             const TablePlace& place) {
  const float* terms = table.data() + function * KelpTable::kTerms;
  const Vector square = hn::GatherIndex(Lanes(), terms + 2, place.first);
  const Vector linear = hn::GatherIndex(Lanes(), terms + 1, place.first);
  const Vector constant = hn::GatherIndex(Lanes(), terms, place.first);
  return times_plus(times_plus(square, place.along, linear), place.along, constant);
}

/// (1 - e^(-s))/s, 1 at 0.
HWY_INLINE Vector falling_slope(Vector s) {
  const Vector x = hn::IfThenElse(hn::Eq(s, all(0.0F)), all(1e-12F), s);
  return hn::Div(exp2_minus_1(Lanes(), hn::Mul(all(-kLog2E), x)), hn::Sub(all(0.0F), x));
}

/// kelp::LightCurve over alpha/use, at x = I alpha/P_S log2(e): (1 - e^(-x)) e^(-inhibition x).
/// Exponents come with their sign.
HWY_INLINE Vector used_light(Vector light, Vector minus_use, Vector minus_inhibition) {
  const Vector taken = exp2_minus_1(Lanes(), hn::Mul(light, minus_use));
  return hn::Sub(all(0.0F), hn::Mul(taken, exp2(Lanes(), hn::Mul(light, minus_inhibition))));
}

/// Its mean over half the day.
HWY_INLINE Vector mean_of_day(Vector noon, Vector minus_use, Vector minus_inhibition) {
  Vector mean = all(0.0F);
  for (std::size_t i = 0; i < kGaussNodes.size(); ++i) {
    const Vector light = hn::Mul(noon, all(static_cast<float>(kDayLight[i])));
    mean = times_plus(all(static_cast<float>(kGaussWeights[i])),
                      used_light(light, minus_use, minus_inhibition), mean);
  }
  return mean;
}

/// Its mean over day and canopy.
HWY_INLINE Vector mean_used_light(const LightLevels& level, Vector use, Vector inhibition) {
  const Vector x = hn::Mul(all(-kLog2E), use);
  const Vector y = hn::Mul(all(-kLog2E), inhibition);
  const Vector ends = hn::Add(mean_of_day(level.upper, x, y), mean_of_day(level.lower, x, y));
  return hn::Add(
      hn::Mul(all(static_cast<float>(kGaussWeights[0])), ends),
      hn::Mul(all(static_cast<float>(kGaussWeights[1])), mean_of_day(level.middle, x, y)));
}

/// 1 - least/reserve, not below 0.
HWY_INLINE Vector reserve_factor(Vector reserve, float least) {
  const Vector held = hn::Max(reserve, all(1e-30F));
  return hn::Max(hn::Sub(all(1.0F), hn::Div(all(least), held)), all(0.0F));
}

/// Dry weight on a metre of line, g.
HWY_INLINE Vector dry_weight(const KelpKernel& k, Vector area, Vector n, Vector c) {
  const Vector nitrogen =
      times_plus(all(k.k_n), hn::Sub(n, all(k.n_min)), all(1.0F + k.n_min + k.c_min));
  const Vector reserve = times_plus(all(k.k_c), hn::Sub(c, all(k.c_min)), nitrogen);
  return hn::Mul(hn::Mul(all(k.dry_weight), area), reserve);
}

HWY_INLINE Vector photoperiod_factor(const KelpKernel& k, Vector change) {
  const Vector root = hn::CopySign(hn::Sqrt(hn::Abs(change)), change);
  return times_plus(all(k.photoperiod_slope), root, all(k.photoperiod_start));
}

HWY_INLINE Vector current_factor(const KelpKernel& k, Vector current) {
  const Vector still = exp2_minus_1(Lanes(), hn::Mul(current, all(k.flow_slope)));
  return hn::Sub(all(k.flow_rest), hn::Mul(all(k.flow_rise), still));
}

/// KelpRates::uptake_per_day.
HWY_INLINE Vector uptake(const KelpKernel& k, Vector nitrate, Vector current,
                         const TablePlace& place) {
  if (k.transfer) {
    const Vector supply =
        hn::Mul(hn::Sqrt(current), from_table(k.table, KelpTable::kSupply, place));
    return co_limited(nitrate, all(k.uptake), all(k.k_x), supply);
  }
  const Vector half_full = hn::Div(hn::Mul(all(k.uptake), nitrate), hn::Add(all(k.k_x), nitrate));
  return hn::Mul(current_factor(k, current), half_full);
}

/// A frond and the rates of a step.
struct VectorFrond {
  Vector area, n, c;
  Vector rest;  ///< of the area, which its float has no digits for
};
struct StepRates {
  Vector growth, carbon, respired, uptake;
};

HWY_INLINE Vector erosion(const KelpKernel& k, Vector area) {
  const Vector inverse = exp2(Lanes(), hn::Mul(all(k.erosion), area));
  const Vector small = all(1e-6F);
  return hn::Div(hn::Mul(small, all(k.step)),
                 times_plus(small, hn::Sub(all(1.0F), inverse), inverse));
}

/// One step of a frond (kelp_day.cpp), its reserves as the start and what they change by.
HWY_INLINE VectorFrond step(const KelpKernel& k, const VectorFrond& f, const StepRates& rates) {
  const Lanes d;
  const Vector scaled = hn::Mul(f.area, all(k.area_scale));
  const Vector bell = exp2(d, hn::Sub(all(0.0F), hn::Mul(scaled, scaled)));
  const Vector by_area = times_plus(all(k.area_inner), bell, all(k.area_tail));
  const Vector allowed = hn::Min(reserve_factor(f.n, k.n_min), reserve_factor(f.c, k.c_min));
  const Vector growth = hn::Mul(hn::Mul(rates.growth, by_area), allowed);

  const Vector dilution = hn::Mul(growth, hn::Add(f.n, all(k.n_struct)));
  const Vector filling = hn::Mul(rates.uptake, hn::Sub(all(k.n_max), f.n));
  const Vector free =
      times_plus(hn::Sub(filling, dilution), falling_slope(hn::Add(rates.uptake, growth)), f.n);

  const Vector kept = exp2(d, hn::Mul(all(k.exudation), hn::Sub(all(k.c_min), f.c)));
  const Vector gained = hn::Sub(hn::Mul(rates.carbon, kept), rates.respired);
  const Vector spent = hn::Mul(growth, hn::Add(f.c, all(k.c_struct)));
  const Vector c = times_plus(hn::Sub(gained, spent), falling_slope(growth), f.c);
  const Vector lacking = hn::Div(hn::Sub(all(k.c_min), c), all(k.c_struct));
  const Vector burnt = hn::Min(hn::Max(lacking, all(0.0F)), all(1.0F));

  const Vector net = hn::Mul(all(kLog2E), hn::Sub(growth, erosion(k, f.area)));
  const Vector grown = exp2_minus_1(d, net);
  const Vector share = hn::Sub(hn::Sub(grown, hn::Mul(grown, burnt)), burnt);
  // Compensated: a step's change is small beside the area, and there are two thousand.
  const Vector change = times_plus(f.area, share, f.rest);
  const Vector area = hn::Add(f.area, change);
  const Vector rest = hn::Sub(change, hn::Sub(area, f.area));
  return {area, hn::Min(hn::Max(free, all(k.n_min)), all(k.n_max)), hn::Max(c, all(k.c_min)), rest};
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#endif
