// SPDX-License-Identifier: Apache-2.0
// What growers state of this crop (common practice, no source): best at 20 to 30 degC and 25 to 33
// psu.
#include <algorithm>
#include <catch2/catch.hpp>

#include "support/field_trial.hpp"

using namespace tidelot;

namespace {

double growth_at(double temperature) {
  return trials::mean_growth(trials::summer(trials::steady(temperature), trials::alga()));
}

double best_growth() {
  double best = 0.0;
  for (double temperature = 5.0; temperature <= 36.0; temperature += 0.5) {
    best = std::max(best, growth_at(temperature));
  }
  return best;
}

}  // namespace

TEST_CASE("from 20.5 to 27.5 degC within 85 % of the best, far less at 14 and 33 degC") {
  const double best = best_growth();
  for (const double temperature : {20.5, 22.0, 25.0, 27.5}) {
    CHECK(growth_at(temperature) > 0.85 * best);
  }
  CHECK(growth_at(20.0) > 0.8 * best);
  CHECK(growth_at(30.0) > 0.5 * best);
  CHECK(growth_at(14.0) < 0.5 * best);
  CHECK(growth_at(33.0) < 0.5 * best);
}

// The next two fail: the culture rates behind the curve (Gorman et al. 2017) are themselves at 76 %
// of their best at 20 and 78 % at 29 degC.

TEST_CASE("20 degC is within 85 % of the best", "[!shouldfail]") {
  CHECK(growth_at(20.0) > 0.85 * best_growth());
}

TEST_CASE("30 degC is within 85 % of the best", "[!shouldfail]") {
  CHECK(growth_at(30.0) > 0.85 * best_growth());
}

TEST_CASE("25 to 33 psu are all within 85 % of the best") {
  const AlgaConstants c = trials::alga();
  trials::Water water = trials::steady(22.0);
  water.salinity = 29.0;
  const double best = trials::mean_growth(trials::summer(water, c));
  for (const double salinity : {25.0, 33.0}) {
    water.salinity = salinity;
    CHECK(trials::mean_growth(trials::summer(water, c)) > 0.85 * best);
  }
}
