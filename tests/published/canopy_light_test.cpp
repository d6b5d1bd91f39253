// SPDX-License-Identifier: Apache-2.0
// Light averaged over depth and through a canopy, by Beer's law: the mean of exp(-K z) between two
// depths. Self-shading of 0.010 m2/g DW is near Hadley et al. 2015, J. Appl. Phycol. 27:901 (from
// memory). Values computed independently from the equation. With an Ik far above any light the
// model's light factor is proportional to light, so the ratio to clear water is that mean.
// Tolerance 1e-4: the model takes three points of the canopy.
#include <catch2/catch.hpp>

#include "support/field_trial.hpp"

using namespace tidelot;

namespace {

/// Mean light over the canopy over that above it, from the model.
double mean_share(double attenuation, const Husbandry& husbandry, AlgaConstants c) {
  c.light_ik = 1e6;
  const auto light = [&](double kd, const AlgaConstants& constants) {
    const DayForcing day{22.0, 28.0, kd, 5.0, 0.15, 30.0, 12.0};
    return grow_season(std::vector{day}, husbandry, constants).days[0].f_light;
  };
  AlgaConstants clear = c;
  clear.shade_m2_per_g = 0.0;
  return light(attenuation, c) / light(0.0, clear);
}

AlgaConstants canopy(double height, double shade) {
  AlgaConstants c = trials::alga();
  c.canopy_height_m = height;
  c.shade_m2_per_g = shade;
  return c;
}

}  // namespace

TEST_CASE("L-12 K 1 from 0.5 to 1.5 m leaves 191.7002 of 500") {
  CHECK(mean_share(1.0, {1.0, 100.0, 14, 0.4}, canopy(1.0, 0.0)) * 500.0 ==
        Approx(191.7002).epsilon(1e-4));
}

TEST_CASE("L-13 K 0.85 from the surface to 2 m leaves 0.480774") {
  CHECK(mean_share(0.85, {1.0, 100.0, 14, 0.4}, canopy(2.0, 0.0)) ==
        Approx(0.480774).epsilon(1e-4));
}

TEST_CASE("L-15 200 g/m2 of canopy in half a metre of Kd 0.85: K 4.85, mean 0.375885") {
  // 200 g DW/m2 over 0.5 m of width are 1000 g FW/m at 0.10.
  CHECK(mean_share(0.85, {0.25, 1000.0, 14, 0.4}, canopy(0.5, 0.010)) ==
        Approx(0.375885).epsilon(1e-4));
}
