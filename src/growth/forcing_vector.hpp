// SPDX-License-Identifier: Apache-2.0
// Water and light of a day, one vector of cells at a time, for the kernels of all crops. Compiled
// once a target.
#if defined(TIDELOT_GROWTH_FORCING_VECTOR) == defined(HWY_TARGET_TOGGLE)
#ifdef TIDELOT_GROWTH_FORCING_VECTOR
#undef TIDELOT_GROWTH_FORCING_VECTOR
#else
#define TIDELOT_GROWTH_FORCING_VECTOR
#endif

#include <hwy/highway.h>

#include "growth/forcing_block.hpp"
#include "growth/vector_math.hpp"
#include "tidelot/season/tide_light.hpp"

HWY_BEFORE_NAMESPACE();
namespace tidelot::HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

using Lanes = hn::CappedTag<float, kBlockCells>;
using Vector = hn::Vec<Lanes>;

HWY_INLINE Vector all(float value) { return hn::Set(Lanes(), value); }
HWY_INLINE Vector load(const BlockRow& row, std::size_t i) { return hn::Load(Lanes(), &row[i]); }
HWY_INLINE void store(Vector value, BlockRow& row, std::size_t i) {
  hn::Store(value, Lanes(), &row[i]);
}

/// A property on a day, in the cells from i on.
HWY_INLINE Vector on_day(const SeasonForcing& season, const ForcingBlock& block, Property property,
                         const KernelDay& day, std::size_t i) {
  const auto& rows = block.nodes[property];
  if (season.one_row[property]) {
    return load(rows[0], i);
  }
  const Vector node = load(rows[day.month], i);
  return times_plus(all(day.weight), hn::Sub(load(rows[day.next_month], i), node), node);
}

/// The same of a property that is never below 0.
HWY_INLINE Vector amount_on_day(const SeasonForcing& season, const ForcingBlock& block,
                                Property property, const KernelDay& day, std::size_t i) {
  return hn::Max(on_day(season, block, property, day, i), all(0.0F));
}

/// The constant term first.
template <std::size_t N>
HWY_INLINE Vector polynomial(const std::array<double, N>& coefficients, Vector x) {
  Vector sum = all(static_cast<float>(coefficients[N - 1]));
  for (std::size_t j = N - 1; j > 0; --j) {
    sum = times_plus(sum, x, all(static_cast<float>(coefficients[j - 1])));
  }
  return sum;
}

/// A value of the day that steps from one latitude to the other.
HWY_INLINE Vector between_latitudes(const ForcingBlock& block, float first, float step,
                                    std::size_t i) {
  return times_plus(load(block.latitude_weight, i), all(step), all(first));
}

/// A Curve, held at 0 from below.
HWY_INLINE Vector curve_at(const CurveLines& curve, Vector x) {
  Vector slope = all(0.0F);
  Vector start = all(curve.before);
  for (const CurveLine& line : curve.lines) {
    const auto beyond = hn::Ge(x, all(line.from));
    slope = hn::IfThenElse(beyond, all(line.slope), slope);
    start = hn::IfThenElse(beyond, all(line.start), start);
  }
  return hn::Max(times_plus(slope, x, start), all(0.0F));
}

/// Ammonium of the nitrogen, by the day's own value or by a share.
HWY_INLINE Vector ammonium_on_day(const SeasonForcing& season, const ForcingBlock& block,
                                  float share, Vector nitrogen, const KernelDay& day,
                                  std::size_t i) {
  return season.ammonium_given ? hn::Min(amount_on_day(season, block, kAmmonium, day, i), nitrogen)
                               : hn::Mul(all(share), nitrogen);
}

/// co_limited of mass_transfer.hpp.
HWY_INLINE Vector co_limited(Vector s, Vector v_max, Vector k, Vector h) {
  const Vector arriving = hn::Mul(h, hn::Add(k, s));
  const Vector difference = hn::Sub(v_max, arriving);
  const Vector four = hn::Mul(hn::Mul(all(4.0F), v_max), hn::Mul(h, k));
  const Vector root = hn::Sqrt(times_plus(difference, difference, four));
  const Vector sum = hn::Add(hn::Add(v_max, arriving), root);
  const Vector least = all(1e-30F);
  return hn::Div(hn::Mul(hn::Mul(hn::Add(v_max, v_max), h), s), hn::Max(sum, least));
}

/// What is left of the light of low water over the tide (season/tide_light.hpp).
HWY_INLINE Vector tide_factor(float half_tide, Vector attenuation) {
  const Vector x = hn::Mul(all(half_tide), attenuation);
  const Vector split = all(static_cast<float>(kBesselSplit));
  const Vector t = hn::Div(hn::Min(x, split), split);
  const Vector near =
      hn::Mul(exp2(Lanes(), hn::Mul(all(-kLog2E), x)), polynomial(kBesselNear, hn::Mul(t, t)));
  const Vector beyond = hn::Max(x, split);
  const Vector far = hn::Div(polynomial(kBesselFar, hn::Div(split, beyond)), hn::Sqrt(beyond));
  return hn::IfThenElse(hn::Le(x, split), near, far);
}

/// Does the crop of these cells grow on this day of the season?
HWY_INLINE auto grows_on(const ForcingBlock& block, Vector today, std::size_t i) {
  return hn::And(hn::Ge(today, load(block.first_day, i)), hn::Le(today, load(block.last_day, i)));
}

template <class Mask>
HWY_INLINE void count_factors(ForcingBlock& block, std::size_t i, Mask grows,
                              const Vector (&day)[kFactors]) {
  for (std::size_t j = 0; j < kFactors; ++j) {
    BlockRow& sum = block.factor_sum[j];
    store(hn::Add(load(sum, i), hn::IfThenElseZero(grows, day[j])), sum, i);
  }
}

/// Noon light at the canopy's three nodes. That at the outer ones is that of the middle
/// times and over one factor.
struct LightLevels {
  Vector upper, middle, lower;
};
HWY_INLINE LightLevels light_levels(const CanopyLight& canopy, Vector noon, Vector attenuation,
                                    Vector weight) {
  const Lanes d;
  const Vector shading = times_plus(all(canopy.shade_per_weight), weight, attenuation);
  const Vector depth =
      times_plus(all(canopy.half), shading, hn::Mul(all(canopy.top_depth), attenuation));
  const Vector middle = hn::Mul(noon, exp2(d, hn::Sub(all(0.0F), depth)));
  const auto outer = exp2_both_ways(d, hn::Mul(all(canopy.outer), shading));
  return {hn::Mul(middle, outer.power), middle, hn::Mul(middle, outer.inverse)};
}

/// The light that reaches a canopy of so much weight.
HWY_INLINE LightLevels canopy_light_on_day(const SeasonForcing& season, const ForcingBlock& block,
                                           const CanopyLight& canopy, Vector weight,
                                           const KernelDay& day, std::size_t i) {
  Vector noon = between_latitudes(block, day.noon, day.noon_step, i);
  if (season.radiation_given) {
    noon = hn::Mul(noon, amount_on_day(season, block, kRadiation, day, i));
  }
  const Vector attenuation = amount_on_day(season, block, kAttenuation, day, i);
  if (canopy.half_tide > 0.0F) {
    noon = hn::Mul(noon, tide_factor(canopy.half_tide, attenuation));
  }
  return light_levels(canopy, noon, attenuation, weight);
}

/// Every vector of the block that holds a cell.
template <class Pass>
HWY_INLINE void over_block(const ForcingBlock& block, const Pass& pass) {
  for (std::size_t i = 0; i < block.cells; i += hn::Lanes(Lanes())) {
    pass(i);
  }
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#endif
