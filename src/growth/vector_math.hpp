// SPDX-License-Identifier: Apache-2.0
// Compiled once a target: no #pragma once, but Highway's own guard. Multiply and add stay apart
// throughout: a fused one rounds once, and the same plan would give other bytes elsewhere.
#if defined(TIDELOT_GROWTH_VECTOR_MATH) == defined(HWY_TARGET_TOGGLE)
#ifdef TIDELOT_GROWTH_VECTOR_MATH
#undef TIDELOT_GROWTH_VECTOR_MATH
#else
#define TIDELOT_GROWTH_VECTOR_MATH
#endif

#include <hwy/highway.h>

#include <cstdint>

HWY_BEFORE_NAMESPACE();
namespace tidelot::HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

/// a b + c, rounded twice.
template <class V>
HWY_INLINE V times_plus(V a, V b, V c) {
  return hn::Add(hn::Mul(a, b), c);
}

inline constexpr float kLog2E = 1.44269504088896341F;

/// 2^y = scale (1 + rest).
template <class V>
struct PowerOfTwo {
  V scale;
  V rest;
};

/// y is held between -126 and 126. y = n + r: adding 1.5 * 2^23 rounds y to the nearest n and
/// leaves n in the low bits of the float, from where a shift makes it 2^n. 2^r - 1 is a polynomial
/// whose greatest error relative to 2^r is 2e-9 before rounding (fitted by Lawson's iteration).
template <class D, class V = hn::Vec<D>>
HWY_INLINE PowerOfTwo<V> power_of_two(D d, V y) {
  const hn::RebindToSigned<D> di;
  y = hn::Min(hn::Max(y, hn::Set(d, -126.0F)), hn::Set(d, 126.0F));
  const V sum = hn::Add(y, hn::Set(d, 12582912.0F));
  const V r = hn::Sub(y, hn::Sub(sum, hn::Set(d, 12582912.0F)));
  V p = times_plus(hn::Set(d, 1.535336196e-4F), r, hn::Set(d, 1.339887502e-3F));
  p = times_plus(p, r, hn::Set(d, 9.618436918e-3F));
  p = times_plus(p, r, hn::Set(d, 5.550332367e-2F));
  p = times_plus(p, r, hn::Set(d, 2.402264774e-1F));
  p = times_plus(p, r, hn::Set(d, 6.931471825e-1F));
  const auto exponent = hn::Add(hn::BitCast(di, sum), hn::Set(di, std::int32_t{127}));
  return {hn::BitCast(d, hn::ShiftLeft<23>(exponent)), hn::Mul(p, r)};
}

template <class D, class V = hn::Vec<D>>
HWY_INLINE V exp2(D d, V y) {
  const PowerOfTwo<V> power = power_of_two(d, y);
  return times_plus(power.scale, power.rest, power.scale);
}

/// 2^y - 1, good near 0 too.
template <class D, class V = hn::Vec<D>>
HWY_INLINE V exp2_minus_1(D d, V y) {
  const PowerOfTwo<V> power = power_of_two(d, y);
  return times_plus(power.scale, power.rest, hn::Sub(power.scale, hn::Set(d, 1.0F)));
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#endif
