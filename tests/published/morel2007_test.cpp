// SPDX-License-Identifier: Apache-2.0
// Morel et al. 2007 (Remote Sens. Environ. 111:69): Kd(PAR) = 0.0864 + 0.884 Kd(490) -
// 0.00137/Kd(490). Coefficients from memory; the values below are that arithmetic done by hand, so
// this checks the code, not the memory.
#include <catch2/catch.hpp>
#include <cmath>

#include "tidelot/layers/layer_set.hpp"

using namespace tidelot;

TEST_CASE("Kd of PAR from Kd at 490 nm") {
  CHECK(kd_from_kd490(0.02) == Approx(0.0864 + 0.01768 - 0.0685).epsilon(1e-9));
  CHECK(kd_from_kd490(0.1) == Approx(0.1611).margin(1e-6));
  CHECK(kd_from_kd490(0.5) == Approx(0.52566).margin(1e-6));
}

TEST_CASE("outside of clear to green ocean water it is not believed") {
  CHECK(std::isnan(kd_from_kd490(0.01)));
  CHECK(std::isnan(kd_from_kd490(0.7)));
  CHECK(std::isnan(kd_from_kd490(0.0)));
}
