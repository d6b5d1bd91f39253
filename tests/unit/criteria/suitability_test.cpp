// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/suitability.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <vector>

using namespace tidelot;

namespace {
const double kNan = std::numeric_limits<double>::quiet_NaN();
double mean(std::vector<double> scores, std::vector<double> weights) {
  return weighted_geometric_mean(scores, weights);
}
int worst(std::vector<double> scores, std::vector<double> weights) {
  return most_limiting(scores, weights);
}
}  // namespace

TEST_CASE("a zero that counts makes the mean zero, one without weight is left out") {
  CHECK(mean({0.0, 1.0}, {1, 1}) == 0.0);
  CHECK(mean({0.0, 0.25}, {0, 1}) == Approx(0.25));
}

TEST_CASE("an unknown score that counts makes the mean unknown, even beside a zero") {
  CHECK(std::isnan(mean({kNan, 0.5}, {1, 1})));
  CHECK(std::isnan(mean({0.0, kNan}, {1, 1})));
  CHECK(std::isnan(mean({kNan, 0.0}, {1, 1})));
  CHECK(mean({kNan, 0.5}, {0, 1}) == Approx(0.5));
}

TEST_CASE("without any weight nothing is known") {
  CHECK(std::isnan(mean({}, {})));
  CHECK(std::isnan(mean({0.5}, {0})));
}

TEST_CASE("only the proportion of the weights matters") {
  CHECK(mean({0.2, 0.9, 0.4}, {1, 2, 3}) == Approx(mean({0.2, 0.9, 0.4}, {10, 20, 30})));
}

TEST_CASE("the most limiting criterion costs most, weight included") {
  CHECK(worst({0.5, 0.6}, {1, 1}) == 0);
  CHECK(worst({0.5, 0.6}, {1, 2}) == 1);
  CHECK(worst({0.5, 0.5}, {1, 1}) == 0);
  CHECK(worst({0.3, 0.0}, {100, 0.01}) == 1);
  CHECK(worst({0.0, 0.5}, {0, 1}) == 1);
}

TEST_CASE("nothing limits where every score is 1") {
  CHECK(worst({1.0, 1.0 - 1e-12}, {1, 1}) == -1);
  CHECK(worst({}, {}) == -1);
}

TEST_CASE("clearance at the edge allows for float maps and no more") {
  FarmPlan farm;
  farm.line_depth_m = 1.0;
  farm.sag_m = 0.3;
  farm.hang_m = 0.5;
  farm.clearance_m = 1.0;
  CHECK(clearance_m(5.0, -0.4, farm) == Approx(2.8));
  CHECK(gear_clears(static_cast<double>(3.2F), -0.4, farm));
  CHECK_FALSE(gear_clears(3.1999, -0.4, farm));
  CHECK(std::isnan(clearance_m(kNan, -0.4, farm)));
  CHECK_FALSE(gear_clears(kNan, -0.4, farm));
}

TEST_CASE("a fixed line does not sink with the tide: the lowest tide takes nothing off") {
  FarmPlan farm;
  farm.line_depth_m = 1.0;
  farm.sag_m = 0.3;
  farm.hang_m = 0.5;
  farm.clearance_m = 1.0;
  farm.fixed_line = true;
  CHECK(clearance_m(5.0, -0.4, farm) == Approx(3.2));
  CHECK(gear_clears(2.8, -0.4, farm));
  CHECK_FALSE(gear_clears(2.7999, -0.4, farm));
}
