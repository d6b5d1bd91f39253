// SPDX-License-Identifier: Apache-2.0
// U.S. Army Corps of Engineers 2003, Coastal Engineering Manual, EM 1110-2-1100 part II-2 (forms
// from memory). Expected figures were computed from the printed equations, independently of this
// program.
#include <catch2/catch.hpp>
#include <cmath>

#include "tidelot/criteria/waves.hpp"

using namespace tidelot;

TEST_CASE("W-05: deep water by friction velocity") {
  const auto check = [](double wind, double fetch, double height, double period) {
    const SeaState sea = cem_deep(wind, fetch);
    CHECK(sea.height_m == Approx(height).margin(1e-5));
    CHECK(sea.period_s == Approx(period).margin(1e-5));
  };
  check(15, 5000, 0.56379, 2.05414);
  check(20, 10000, 1.11888, 2.89750);
  check(10, 2000, 0.22455, 1.29730);
}
