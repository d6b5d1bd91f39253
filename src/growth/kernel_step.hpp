// SPDX-License-Identifier: Apache-2.0
// The equations of model.cpp, one vector of cells at a time. Compiled once a target.
#if defined(TIDELOT_GROWTH_KERNEL_STEP) == defined(HWY_TARGET_TOGGLE)
#ifdef TIDELOT_GROWTH_KERNEL_STEP
#undef TIDELOT_GROWTH_KERNEL_STEP
#else
#define TIDELOT_GROWTH_KERNEL_STEP
#endif

#include <hwy/highway.h>

#include "growth/forcing_vector.hpp"
#include "growth/kernel_block.hpp"
#include "growth/numbers.hpp"

HWY_BEFORE_NAMESPACE();
namespace tidelot::HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

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
  const Vector above = times_plus(hn::Mul(all(k.uptake_nh4), nh4), below_no3,
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

/// Mean of tanh(I/Ik) over day and canopy.
HWY_INLINE Vector mean_light(const LightLevels& level) {
  const Vector ends = hn::Add(mean_of_day(level.upper), mean_of_day(level.lower));
  return times_plus(all(static_cast<float>(kGaussWeights[0])), ends,
                    hn::Mul(all(static_cast<float>(kGaussWeights[1])), mean_of_day(level.middle)));
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#endif
