// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/spread.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

TEST_CASE("a chance counts equal draws half", "[sites]") {
  const std::vector<double> a{3, 2, 1, 5}, b{1, 2, 3, 4};
  CHECK(chance_above(a, b) == 0.625);
  CHECK(chance_above(b, a) == 0.375);
  CHECK(chance_above({}, {}) == 0.0);
}

TEST_CASE("four draws in five tell two places apart", "[sites]") {
  CHECK(told_above(0.8));
  CHECK_FALSE(told_above(0.79));
}
