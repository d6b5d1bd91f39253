// SPDX-License-Identifier: Apache-2.0
// Mean transfer to a flat blade under a laminar layer, Sh = 0.664 Re^1/2 Sc^1/3 (Pohlhausen 1921,
// Z. Angew. Math. Mech. 1:115, for heat; from memory). The figures were computed independently from
// the printed equation, to the digits given.
#include <catch2/catch.hpp>

#include "tidelot/growth/mass_transfer.hpp"

using namespace tidelot;

namespace {

constexpr double kLength = 0.05;
constexpr double kViscosity = 1.05e-6;
constexpr double kDiffusivity = 1.7e-9;

struct Row {
  double current, sherwood, transfer, layer_um;
};
constexpr Row kRows[] = {{0.01, 123.4, 4.1955e-6, 405.0},
                         {0.05, 275.9, 9.3814e-6, 181.0},
                         {0.2, 551.8, 1.87629e-5, 90.6}};

}  // namespace

TEST_CASE("N-04: a blade of 5 cm at 1, 5 and 20 cm/s") {
  for (const Row& row : kRows) {
    CAPTURE(row.current);
    const double k = blade_transfer({row.current, kLength, kViscosity}, kDiffusivity);
    CHECK(k == Approx(row.transfer).epsilon(2e-5));
    CHECK(k * kLength / kDiffusivity == Approx(row.sherwood).margin(0.06));
    CHECK(1e6 * kDiffusivity / k == Approx(row.layer_um).epsilon(2e-3));
  }
  CHECK(blade_transfer({0.0, kLength, kViscosity}, kDiffusivity) == 0.0);
}

TEST_CASE("N-04: sea water of 20 degC and salinity 35 has that viscosity") {
  // 1.05e-6 m2/s, the value behind N-04 (from memory); at 0 degC 1.83e-6 (from memory).
  CHECK(sea_water_viscosity(20.0) == Approx(1.05e-6).epsilon(0.01));
  CHECK(sea_water_viscosity(0.0) == Approx(1.83e-6).epsilon(0.02));
}
