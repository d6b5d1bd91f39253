// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>

namespace tidelot {

/// Mean of exp(-K eta) over a sinusoidal tide that rises eta = 0 .. tide_m above low water:
/// exp(-x) I0(x), x = K tide_m/2, I0 the modified Bessel function of the first kind. What is left
/// of the light of low water, over the tide. attenuation K in 1/m, both 0 and up; 1 without a tide.
/// To 3e-7 absolute: polynomials of Abramowitz & Stegun 1964, 9.8.1 and 9.8.2.
[[nodiscard]] double tide_light(double attenuation, double tide_m);

/// Their coefficients, the constant term first: of I0 in (x/kBesselSplit)^2 up to the split, of
/// sqrt(x) exp(-x) I0 in kBesselSplit/x beyond it.
inline constexpr double kBesselSplit = 3.75;
inline constexpr std::array<double, 7> kBesselNear{1.0,       3.5156229, 3.0899424, 1.2067492,
                                                   0.2659732, 0.0360768, 0.0045813};
inline constexpr std::array<double, 9> kBesselFar{0.39894228,  0.01328592,  0.00225319,
                                                  -0.00157565, 0.00916281,  -0.02057706,
                                                  0.02635537,  -0.01647633, 0.00392377};

}  // namespace tidelot
