// SPDX-License-Identifier: Apache-2.0
// What must hold of wind waves whatever the equation; their figures are held by tests/published.
#include "tidelot/criteria/waves.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidelot;

TEST_CASE("More wind, more fetch and more depth never make a lower sea") {
  using InDepth = SeaState (*)(double, double, double);
  for (const InDepth sea : {spm_shallow, young_verhagen, breugem_holthuijsen}) {
    const double height_m = sea(15, 5000, 6).height_m;
    CHECK(height_m > 0.0);
    CHECK(sea(16, 5000, 6).height_m > height_m);
    CHECK(sea(15, 6000, 6).height_m > height_m);
    CHECK(sea(15, 5000, 7).height_m > height_m);
    CHECK(sea(15, 6000, 6).period_s > sea(15, 5000, 6).period_s);
  }
  for (const auto sea : {spm_deep, cem_deep}) {
    CHECK(sea(16, 5000).height_m > sea(15, 5000).height_m);
    CHECK(sea(15, 6000).height_m > sea(15, 5000).height_m);
  }
}

TEST_CASE("A longer fetch takes the wind longer, a stronger wind shorter") {
  CHECK(spm_deep_duration_s(15, 6000) > spm_deep_duration_s(15, 5000));
  CHECK(spm_deep_duration_s(20, 5000) < spm_deep_duration_s(15, 5000));
}

TEST_CASE("A wave is shorter in shallow water, and no longer than in the deepest") {
  const double deep_m = 9.81 * 4 * 4 / (2 * 3.14159265358979);
  CHECK(wave_length_m(4, 0) == 0.0);
  CHECK(wave_length_m(4, 2) < wave_length_m(4, 4));
  CHECK(wave_length_m(4, 500) == Approx(deep_m).epsilon(1e-4));
  CHECK(group_ratio(4, 500) == Approx(0.5).epsilon(1e-6));
  CHECK(group_ratio(4, 0.01) == Approx(1.0).epsilon(1e-2));
  CHECK(shoaling(4, 500) == Approx(1.0).epsilon(1e-6));
}

TEST_CASE("The water moves less the deeper it lies, and pulls with the square of its speed") {
  const SeaState sea{1.0, 4.0};
  const double at_top = orbital_speed(sea, 8, 0);
  CHECK(orbital_speed(sea, 8, 3) < at_top);
  CHECK(orbital_speed(sea, 8, 8) < orbital_speed(sea, 8, 3));
  CHECK(orbital_speed(sea, 8, 20) == orbital_speed(sea, 8, 8));
  CHECK(orbital_speed({2.0, 4.0}, 8, 3) == Approx(2 * orbital_speed(sea, 8, 3)));
  CHECK(line_drag_n_per_m(2.0, 0.1, 1.2) == Approx(4 * line_drag_n_per_m(1.0, 0.1, 1.2)));
}
