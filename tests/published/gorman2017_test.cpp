// SPDX-License-Identifier: Apache-2.0
// Gorman, Kraemer, Yarish, Boo & Kim 2017, Algae 32(1), temperature-gradient table, first week:
// growth of G. tikvahiae, read in the publication, in % a day. The curve was fitted to it.
#include <array>
#include <catch2/catch.hpp>

#include "tidelot/growth/model.hpp"

using namespace tidelot;

namespace {

double fitted(double temperature) { return 11.67 * ctmi(temperature, 8.0, 24.97, 34.05); }

}  // namespace

TEST_CASE("G-01 the fitted curve is within 0.6 % a day of the four measured rates") {
  struct Rate {
    double temperature;
    double percent;
  };
  for (const Rate& rate : {Rate{20, 9.1}, {24, 12.0}, {29, 9.4}, {34, 0.2}}) {
    CHECK(fitted(rate.temperature) == Approx(rate.percent).margin(0.6));
  }
}

TEST_CASE("G-02 no growth at the limits, next to none at 34 degC") {
  CHECK(fitted(8.0) == 0.0);
  CHECK(fitted(3.0) == 0.0);
  CHECK(fitted(34.05) == 0.0);
  CHECK(fitted(40.0) == 0.0);
  CHECK(fitted(34.0) < 0.05 * fitted(24.97));
}

TEST_CASE("G-03 the rates keep the measured order 24, 29, 20, 34 degC") {
  CHECK(fitted(24) > fitted(29));
  CHECK(fitted(29) > fitted(20));
  CHECK(fitted(20) > fitted(34));
}
