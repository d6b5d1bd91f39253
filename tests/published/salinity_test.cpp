// SPDX-License-Identifier: Apache-2.0
// Response to salinity. Sources beside each case.
#include <catch2/catch.hpp>

#include "tidelot/growth/model.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

TEST_CASE("G-04 a trapezoid of 15, 25, 33, 45, computed independently, to 1e-12") {
  const Curve trapezoid({{15, 0}, {25, 1}, {33, 1}, {45, 0}});
  CHECK(trapezoid(18) == Approx(0.30).margin(1e-12));
  CHECK(trapezoid(20) == Approx(0.50).margin(1e-12));
  CHECK(trapezoid(22.5) == Approx(0.75).margin(1e-12));
  CHECK(trapezoid(25) == 1.0);
  CHECK(trapezoid(30) == 1.0);
  CHECK(trapezoid(33) == 1.0);
  CHECK(trapezoid(36) == Approx(0.75).margin(1e-12));
  CHECK(trapezoid(39) == Approx(0.50).margin(1e-12));
  CHECK(trapezoid(10) == 0.0);
  CHECK(trapezoid(45) == 0.0);
}

TEST_CASE("the profile grows fully from 25 to 33 psu (common practice, no source)") {
  const Crop crop = built_in_crop("warm-red-alga");
  for (double salinity = 25.0; salinity <= 33.0; salinity += 0.5) {
    CHECK(crop.salinity(salinity) == 1.0);
  }
}

TEST_CASE(
    "31 to 36.5 psu have little effect (Capo et al. 1999, J. Appl. Phycol. 11:143, abstract)") {
  const Crop crop = built_in_crop("warm-red-alga");
  CHECK(crop.salinity(31.0) == 1.0);
  CHECK(crop.salinity(36.5) > 0.7);
}

TEST_CASE("10 psu and below lose biomass (G. birdiae, Ciencia Rural 2021, abstract)") {
  CHECK(built_in_crop("warm-red-alga").salinity(10.0) == 0.0);
}
