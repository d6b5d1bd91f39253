// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/tide_light.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace tidelot;

namespace {

/// The mean that tide_light stands for, by many equal steps of the tide's phase.
double stepped(double attenuation, double tide_m) {
  constexpr int kSteps = 4000;
  double sum = 0.0;
  for (int i = 0; i < kSteps; ++i) {
    const double rise = tide_m / 2.0 * (1.0 + std::cos(2.0 * std::numbers::pi * i / kSteps));
    sum += std::exp(-attenuation * rise);
  }
  return sum / kSteps;
}

}  // namespace

TEST_CASE("light over the tide is the mean over a sinusoidal tide") {
  for (const double attenuation : {0.05, 0.3, 0.85, 2.0, 6.0, 20.0}) {
    for (const double tide : {0.3, 1.0, 2.1, 5.0, 12.0}) {
      CAPTURE(attenuation, tide);
      CHECK(tide_light(attenuation, tide) == Approx(stepped(attenuation, tide)).margin(3e-7));
    }
  }
}

TEST_CASE("without a tide, or in clear water, nothing is lost, to the bit") {
  CHECK(tide_light(0.8, 0.0) == 1.0);
  CHECK(tide_light(0.0, 2.1) == 1.0);
}

TEST_CASE("a greater tide never leaves more, and never nothing") {
  double before = 1.0;
  for (double tide = 0.01; tide < 20.0; tide *= 1.07) {
    const double left = tide_light(5.0, tide);
    CHECK(left < before);
    CHECK(left > 0.0);
    before = left;
  }
  CHECK(std::isfinite(tide_light(1000.0, 20.0)));
}
