// SPDX-License-Identifier: Apache-2.0
// Abramowitz & Stegun 1964, Handbook of Mathematical Functions, table 9.8: exp(-x) I0(x), the mean
// light over a sinusoidal tide. Values from memory, agreeing to all digits with a library for
// special functions.
#include <catch2/catch.hpp>

#include "tidelot/season/tide_light.hpp"

using namespace tidelot;

TEST_CASE("Abramowitz & Stegun 1964, table 9.8: exp(-x) I0(x)") {
  // x is attenuation times half the range: 1 m of half range makes x the attenuation.
  CHECK(tide_light(0.5, 2.0) == Approx(0.6450352704).margin(3e-7));
  CHECK(tide_light(1.0, 2.0) == Approx(0.4657596076).margin(3e-7));
  CHECK(tide_light(2.0, 2.0) == Approx(0.3085083226).margin(3e-7));
  CHECK(tide_light(3.75, 2.0) == Approx(0.2144570512).margin(3e-7));
  CHECK(tide_light(5.0, 2.0) == Approx(0.1835408126).margin(3e-7));
  CHECK(tide_light(10.0, 2.0) == Approx(0.1278333372).margin(3e-7));
  CHECK(tide_light(20.0, 2.0) == Approx(0.0897803119).margin(3e-7));
}
