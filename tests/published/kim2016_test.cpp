// SPDX-License-Identifier: Apache-2.0
// Kim et al. 2016, Phycologia 55:257-264, doi 10.2216/15-90.1 (abstract read): G. tikvahiae does
// not withstand long exposure to 10 degC and below, to 34 degC and above, or to salinities of 20
// and below. The model is given a summer on the longline in water that is good in all other
// respects.
#include <catch2/catch.hpp>

#include "support/red_alga_trials.hpp"

using namespace tidelot;

TEST_CASE("Kim et al. 2016: no sustained growth at or below 10 degC, or from 34 degC on") {
  const AlgaConstants c = trials::alga();
  for (const double temperature : {4.0, 8.0, 10.0, 34.0, 36.0}) {
    INFO("temperature " << temperature);
    CHECK(trials::long_exposure(temperature, 28.0, c) <= 0.0);
    CHECK(trials::summer(trials::steady(temperature), c).yield_g_per_m < 0.0);
  }
}

TEST_CASE("Kim et al. 2016: no sustained growth at a salinity of 20", "[!shouldfail]") {
  // Fails: the model grows 5 % a day. Wu et al. 2018, Algae 33:329, found two other species growing
  // best at 20, and estuaries where this one stands fall to 20 for weeks; the profile's shoulder is
  // a judgement between the two, and growth ends at 10 only.
  CHECK(trials::long_exposure(22.0, 20.0, trials::alga()) <= 0.0);
}

TEST_CASE("Kim et al. 2016: salinities of 20 and below cost growth") {
  const AlgaConstants c = trials::alga();
  trials::Water water = trials::steady(22.0);
  const double best = trials::summer(water, c).yield_g_per_m;
  water.salinity = 20.0;
  CHECK(trials::summer(water, c).yield_g_per_m < 0.6 * best);
  water.salinity = 15.0;
  CHECK(trials::summer(water, c).yield_g_per_m < 0.2 * best);
  water.salinity = 10.0;
  CHECK(trials::summer(water, c).yield_g_per_m < 0.0);
}
