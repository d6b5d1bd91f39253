// SPDX-License-Identifier: Apache-2.0
// Marinho-Soriano et al. (abstract read): G. birdiae in a tropical estuary, six months, grew
// between -0.59 and 4.67 % a day with 900 to 3537 g FW/m2 standing. Drivers other than salinity and
// epiphytes are not told; what is assumed is written in support/red_alga_trials.hpp.
#include <catch2/catch.hpp>

#include "support/red_alga_trials.hpp"

using namespace tidelot;

TEST_CASE("Marinho-Soriano et al.: a dense crop in warm turbid water, accepted at -0.59 to 4.67") {
  const double growth = trials::tropical_estuary(trials::alga());
  CHECK(growth > -0.59);
  CHECK(growth < 4.67);
}
