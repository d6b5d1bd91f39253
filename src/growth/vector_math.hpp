// SPDX-License-Identifier: Apache-2.0
// Compiled once a target: no #pragma once, but Highway's own guard. Where the code says times_plus,
// the processor multiplies and adds in one step with one rounding; the compiler itself fuses
// nothing. So every processor with such a step gives the same bytes, and one without (SSE4) others
// in the last places.
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

/// a b + c, rounded once where the processor can.
template <class V>
HWY_INLINE V times_plus(V a, V b, V c) {
  return hn::MulAdd(a, b, c);
}

inline constexpr float kLog2E = 1.44269504088896341F;

/// 2^y = scale (1 + rest).
template <class V>
struct PowerOfTwo {
  V scale;
  V rest;
};

/// y = n + r, n whole and r between -1/2 and 1/2; scale = 2^n.
template <class V>
struct WholeAndRest {
  V scale;
  V rest;
};

/// y is held between -126 and 126. Adding 1.5 * 2^23 rounds y to the nearest n and leaves n in the
/// low bits of the float, from where a shift makes it 2^n.
template <class D, class V = hn::Vec<D>>
HWY_INLINE WholeAndRest<V> whole_and_rest(D d, V y) {
  const hn::RebindToSigned<D> di;
  y = hn::Min(hn::Max(y, hn::Set(d, -126.0F)), hn::Set(d, 126.0F));
  const V sum = hn::Add(y, hn::Set(d, 12582912.0F));
  const auto exponent = hn::Add(hn::BitCast(di, sum), hn::Set(di, std::int32_t{127}));
  return {hn::BitCast(d, hn::ShiftLeft<23>(exponent)),
          hn::Sub(y, hn::Sub(sum, hn::Set(d, 12582912.0F)))};
}

// 2^r - 1 = r (k1 + r (k2 + ...)): greatest error relative to 2^r 2e-9 before rounding (fitted by
// Lawson's iteration).
inline constexpr float kPower1 = 6.931471825e-1F;
inline constexpr float kPower2 = 2.402264774e-1F;
inline constexpr float kPower3 = 5.550332367e-2F;
inline constexpr float kPower4 = 9.618436918e-3F;
inline constexpr float kPower5 = 1.339887502e-3F;
inline constexpr float kPower6 = 1.535336196e-4F;

template <class D, class V = hn::Vec<D>>
HWY_INLINE PowerOfTwo<V> power_of_two(D d, V y) {
  const auto [scale, r] = whole_and_rest(d, y);
  V p = times_plus(hn::Set(d, kPower6), r, hn::Set(d, kPower5));
  p = times_plus(p, r, hn::Set(d, kPower4));
  p = times_plus(p, r, hn::Set(d, kPower3));
  p = times_plus(p, r, hn::Set(d, kPower2));
  p = times_plus(p, r, hn::Set(d, kPower1));
  return {scale, hn::Mul(p, r)};
}

/// 2^y and 2^-y, whose polynomials share their even and odd halves.
template <class V>
struct PowerAndInverse {
  V power;
  V inverse;
};

template <class D, class V = hn::Vec<D>>
HWY_INLINE PowerAndInverse<V> exp2_both_ways(D d, V y) {
  const hn::RebindToSigned<D> di;
  const auto [scale, r] = whole_and_rest(d, y);
  const V square = hn::Mul(r, r);
  V even = times_plus(hn::Set(d, kPower6), square, hn::Set(d, kPower4));
  even = hn::Mul(times_plus(even, square, hn::Set(d, kPower2)), square);
  V odd = times_plus(hn::Set(d, kPower5), square, hn::Set(d, kPower3));
  odd = hn::Mul(times_plus(odd, square, hn::Set(d, kPower1)), r);
  // 2^-n: the exponents of 2^n and 2^-n add up to 254
  const auto mirrored = hn::Sub(hn::Set(di, std::int32_t{254 << 23}), hn::BitCast(di, scale));
  const V inverse = hn::BitCast(d, mirrored);
  return {times_plus(scale, hn::Add(even, odd), scale),
          times_plus(inverse, hn::Sub(even, odd), inverse)};
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
