// SPDX-License-Identifier: Apache-2.0
// IOGP Publication 373-7-2 (EPSG guidance note 7, part 2), worked examples of coordinate operation
// methods, through the program's projector. Values from memory, recomputed with PROJ 9.1.1.
#include <catch2/catch.hpp>

#include "support/project.hpp"

using tidelot::LonLat;
using tidelot::XY;
using tidelot::test::project;
using tidelot::test::unproject;

TEST_CASE("Z-07: Lambert azimuthal equal area, EPSG:3035 at 50 N 5 E") {
  // Published to 0.01 m: northing 2 999 718.85, easting 3 962 799.45.
  const XY found = project("EPSG:4258", "EPSG:3035", {5, 50});
  CHECK(found.x == Approx(3962799.45).margin(0.01));
  CHECK(found.y == Approx(2999718.85).margin(0.01));
  const LonLat back = unproject("EPSG:4258", "EPSG:3035", {3962799.45, 2999718.85});
  CHECK(back.lon == Approx(5.0).margin(2e-7));
  CHECK(back.lat == Approx(50.0).margin(2e-7));
}

TEST_CASE("Z-07: transverse Mercator on the Airy ellipsoid at 50.5 N 0.5 E") {
  // Origin 49 N 2 W, scale 0.9996012717, false origin 400 000, -100 000 (EPSG:27700 on EPSG:4277).
  // Published 577 274.99, 69 740.50; PROJ gives 577 274.984, 69 740.492: tolerance 0.02 m.
  const XY found = project("EPSG:4277", "EPSG:27700", {0.5, 50.5});
  CHECK(found.x == Approx(577274.99).margin(0.02));
  CHECK(found.y == Approx(69740.50).margin(0.02));
}
