// SPDX-License-Identifier: Apache-2.0
// UNESCO 1983, Technical Papers in Marine Science 44, check values of the equation of state at one
// atmosphere (temperatures on IPTS-68; from memory, reproduced by an independent computation to
// 1e-5).
#include <catch2/catch.hpp>

#include "tidelot/core/seawater.hpp"

using tidelot::seawater_density;

TEST_CASE("S-01 density of seawater at one atmosphere, to 1e-5 kg/m3") {
  CHECK(seawater_density(35, 5) == Approx(1027.67547).margin(1e-5));
  CHECK(seawater_density(0, 5) == Approx(999.96675).margin(1e-5));
  CHECK(seawater_density(35, 25) == Approx(1023.34306).margin(1e-5));
  CHECK(seawater_density(0, 25) == Approx(997.04796).margin(1e-5));
}

TEST_CASE("density of estuary water, computed independently") {
  CHECK(seawater_density(30, 20) == Approx(1020.95388).margin(1e-5));
  CHECK(seawater_density(25, 24) == Approx(1016.09225).margin(1e-5));
  CHECK(seawater_density(20, 15) == Approx(1014.44336).margin(1e-5));
}
