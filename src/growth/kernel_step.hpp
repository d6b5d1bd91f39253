// SPDX-License-Identifier: Apache-2.0
// The equations of model.cpp, one vector of cells at a time. Compiled once a target.
#if defined(TIDELOT_GROWTH_KERNEL_STEP) == defined(HWY_TARGET_TOGGLE)
#ifdef TIDELOT_GROWTH_KERNEL_STEP
#undef TIDELOT_GROWTH_KERNEL_STEP
#else
#define TIDELOT_GROWTH_KERNEL_STEP
#endif

#include <hwy/highway.h>

#include "growth/kernel_block.hpp"
#include "growth/numbers.hpp"
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
HWY_INLINE Vector on_day(const KernelSeason& season, const KernelBlock& block, Property property,
                         const KernelDay& day, std::size_t i) {
  const auto& rows = block.nodes[property];
  if (season.one_row[property]) {
    return load(rows[0], i);
  }
  const Vector node = load(rows[day.month], i);
  return times_plus(all(day.weight), hn::Sub(load(rows[day.next_month], i), node), node);
}

/// The same of a property that is never below 0.
HWY_INLINE Vector amount_on_day(const KernelSeason& season, const KernelBlock& block,
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

/// CTMI; held at the limits, where it is 0.
HWY_INLINE Vector temperature_factor(const KernelConstants& k, Vector temperature) {
  const Vector t = hn::Min(hn::Max(temperature, all(k.t_min)), all(k.t_max));
  const Vector rise = hn::Sub(t, all(k.t_min));
  const Vector numerator = hn::Mul(hn::Mul(hn::Sub(t, all(k.t_max)), rise), rise);
  const Vector twice = hn::Sub(all(k.t_opt + k.t_min), hn::Add(t, t));
  const Vector inner =
      hn::Sub(hn::Mul(all(k.t_below), hn::Sub(t, all(k.t_opt))), hn::Mul(all(k.t_above), twice));
  return hn::Div(numerator, hn::Mul(all(k.t_below), inner));
}

HWY_INLINE Vector respiration(const KernelConstants& k, Vector temperature) {
  const Vector warmer = hn::Sub(temperature, all(20.0F));
  return hn::Mul(all(k.respiration_20), exp2(Lanes(), hn::Mul(all(k.respiration_slope), warmer)));
}

HWY_INLINE Vector salinity_factor(const KernelConstants& k, Vector salinity) {
  Vector slope = all(0.0F);
  Vector start = all(k.salinity_before);
  for (const SalinityLine& line : k.salinity) {
    const auto beyond = hn::Ge(salinity, all(line.from));
    slope = hn::IfThenElse(beyond, all(line.slope), slope);
    start = hn::IfThenElse(beyond, all(line.start), start);
  }
  return hn::Max(times_plus(slope, salinity, start), all(0.0F));
}

HWY_INLINE Vector boundary_factor(const KernelConstants& k, Vector current) {
  const Vector rest = exp2_minus_1(Lanes(), hn::Mul(current, all(k.boundary_slope)));
  return hn::Sub(all(0.0F), rest);
}

/// a, uptake at empty reserve over Qmax - Qmin, 1/d, but for the boundary factor. Both fractions
/// stand over one denominator.
HWY_INLINE Vector uptake(const KernelConstants& k, Vector nitrogen, Vector nh4) {
  const Vector no3 = hn::Sub(nitrogen, nh4);
  const Vector below_nh4 = hn::Add(all(k.k_nh4), nh4);
  const Vector below_no3 = hn::Mul(hn::Add(all(k.k_no3), no3), hn::Add(all(k.k_inhibition), nh4));
  const Vector above = hn::Add(hn::Mul(hn::Mul(all(k.uptake_nh4), nh4), below_no3),
                               hn::Mul(hn::Mul(all(k.uptake_no3), no3), below_nh4));
  return hn::Div(above, hn::Mul(below_nh4, below_no3));
}

/// How much of h = still + moving U^1/2 (1 + eddies U^5/8)^4/5 there is of each nutrient.
struct Supply {
  Vector nh4, no3;
};

HWY_INLINE Supply supply(const KernelTransfer& t, Vector temperature, Vector current) {
  constexpr auto kMiddle = static_cast<float>((kFitColdest + kFitWarmest) / 2.0);
  constexpr auto kPerDegree = static_cast<float>(2.0 / (kFitWarmest - kFitColdest));
  const Vector warmth = hn::Mul(hn::Sub(temperature, all(kMiddle)), all(kPerDegree));
  const Vector x = hn::Min(hn::Max(warmth, all(-1.0F)), all(1.0F));
  const Vector root = hn::Sqrt(current);
  const Vector eighth = hn::Sqrt(hn::Sqrt(root));
  // (1 + y)^0.8 by its series: 2e-5 at y = 0.5, which a branch does not pass
  constexpr std::array<double, 9> kSeries{1.0,      0.8,        -0.08,      0.032,       -0.0176,
                                          0.011264, -0.0078848, 0.00585728, -0.004539392};
  const Vector y = hn::Min(hn::Mul(polynomial(t.eddies, x), hn::Mul(root, eighth)), all(0.5F));
  const Vector speed = hn::Mul(root, polynomial(kSeries, y));
  return {times_plus(polynomial(t.moving[0], x), speed, polynomial(t.still[0], x)),
          times_plus(polynomial(t.moving[1], x), speed, polynomial(t.still[1], x))};
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

/// a with the mass-transfer form.
HWY_INLINE Vector transfer_uptake(const KernelConstants& k, Vector nitrogen, Vector nh4,
                                  Vector temperature, Vector current) {
  const Vector no3 = hn::Sub(nitrogen, nh4);
  const Supply h = supply(*k.transfer, temperature, current);
  const Vector ammonium = co_limited(nh4, all(k.uptake_nh4), all(k.k_nh4), h.nh4);
  const Vector at_surface = hn::Max(hn::Sub(nh4, hn::Div(ammonium, h.nh4)), all(0.0F));
  const Vector v_no3 = hn::Div(all(k.uptake_no3), hn::Add(all(k.k_inhibition), at_surface));
  return hn::Add(ammonium, co_limited(no3, v_no3, all(k.k_no3), h.no3));
}

/// Mean over half the day of tanh(I/Ik), light being `noon` times Ik at noon. The three tanh of the
/// Gauss nodes are one function of `noon`; this quotient of polynomials follows it to 2e-7 relative
/// before rounding (Lawson's iteration on 0..44, where it has reached 1 to 1e-7) and takes less
/// than half of their operations.
HWY_INLINE Vector mean_of_day(Vector noon) {
  constexpr float kAbove[] = {6.526382212e-10F, 1.003627949e-5F, 6.454095274e-5F,
                              1.894457848e-3F,  1.767171361e-2F, 3.245592117e-2F,
                              2.595968246e-1F,  9.562149644e-2F, 6.366250515e-1F};
  constexpr float kBelow[] = {1.015552243e-5F, 5.566267282e-5F, 2.234999789e-3F,
                              1.077643316e-2F, 9.725129604e-2F, 8.435839415e-2F,
                              6.295257807e-1F, 1.502077729e-1F, 1.0F};
  const Vector x = hn::Min(noon, all(44.0F));
  Vector above = all(kAbove[0]);
  Vector below = all(kBelow[0]);
  for (std::size_t j = 1; j < 9; ++j) {
    above = times_plus(above, x, all(kAbove[j]));
    below = times_plus(below, x, all(kBelow[j]));
  }
  return hn::Div(hn::Mul(above, x), below);
}

/// What is left of the light of low water over the tide (season/tide_light.hpp).
HWY_INLINE Vector tide_factor(const KernelConstants& k, Vector attenuation) {
  const Vector x = hn::Mul(all(k.half_tide), attenuation);
  const Vector split = all(static_cast<float>(kBesselSplit));
  const Vector t = hn::Div(hn::Min(x, split), split);
  const Vector near =
      hn::Mul(exp2(Lanes(), hn::Mul(all(-kLog2E), x)), polynomial(kBesselNear, hn::Mul(t, t)));
  const Vector beyond = hn::Max(x, split);
  const Vector far = hn::Div(polynomial(kBesselFar, hn::Div(split, beyond)), hn::Sqrt(beyond));
  return hn::IfThenElse(hn::Le(x, split), near, far);
}

/// Noon light over Ik at the canopy's three nodes. That at the outer ones is that of the middle
/// times and over one factor.
struct LightLevels {
  Vector upper, middle, lower;
};
HWY_INLINE LightLevels light_levels(const KernelConstants& k, Vector noon, Vector attenuation,
                                    Vector weight) {
  const Lanes d;
  const Vector shading = times_plus(all(k.shade_per_weight), weight, attenuation);
  const Vector depth =
      times_plus(all(k.canopy_half), shading, hn::Mul(all(k.top_depth), attenuation));
  const Vector middle = hn::Mul(noon, exp2(d, hn::Sub(all(0.0F), depth)));
  const auto outer = exp2_both_ways(d, hn::Mul(all(k.canopy_outer), shading));
  return {hn::Mul(middle, outer.power), middle, hn::Mul(middle, outer.inverse)};
}

/// Mean of tanh(I/Ik) over day and canopy.
HWY_INLINE Vector mean_light(const LightLevels& level) {
  const Vector ends = hn::Add(mean_of_day(level.upper), mean_of_day(level.lower));
  return hn::Add(hn::Mul(all(static_cast<float>(kGaussWeights[0])), ends),
                 hn::Mul(all(static_cast<float>(kGaussWeights[1])), mean_of_day(level.middle)));
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#endif
