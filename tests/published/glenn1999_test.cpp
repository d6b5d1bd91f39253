// SPDX-License-Identifier: Apache-2.0
// Glenn et al. 1999, Aquaculture 178:323 (abstract read): growth of G. parvispora followed ammonium
// from 0.2 to 4 umol/L (r = 0.91).
#include <catch2/catch.hpp>

#include "support/field_trial.hpp"

using namespace tidelot;

TEST_CASE("Glenn et al. 1999: more ammonium, more growth, from 0.2 to 4 umol/L") {
  double before = 0.0;
  for (const double ammonium : {0.2, 0.5, 1.0, 2.0, 4.0}) {
    trials::Water water = trials::steady(25.0);
    water.nitrogen = ammonium / 0.4;
    const double growth = trials::mean_growth(trials::summer(water, trials::alga()));
    CHECK(growth > before);
    before = growth;
  }
}
