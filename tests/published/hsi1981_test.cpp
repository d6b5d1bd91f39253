// SPDX-License-Identifier: Apache-2.0
// U.S. Fish & Wildlife Service 1981, Standards for the Development of Habitat Suitability Index
// Models, ESM 103. The forms are from memory; the numbers are computed from the forms (double
// precision, rounded to six decimals), not printed in the source.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

#include "tidelot/criteria/suitability.hpp"

using tidelot::weighted_geometric_mean;

namespace {
double mean(const std::vector<double>& scores, const std::vector<double>& weights) {
  return weighted_geometric_mean(scores, weights);
}
}  // namespace

TEST_CASE("H-01: geometric means of 0.8, 0.5 and 1.0") {
  // Computed, tolerance 1e-6 absolute (the last digit given).
  CHECK(mean({0.8, 0.5, 1.0}, {1, 1, 1}) == Approx(0.736806).margin(1e-6));
  CHECK(mean({0.8, 0.5, 1.0}, {0.5, 0.3, 0.2}) == Approx(0.726501).margin(1e-6));
  // (V1^2 V2)^(1/3) is the mean of two scores with weights 2 and 1.
  CHECK(mean({0.8, 0.5}, {2, 1}) == Approx(0.683990).margin(1e-6));
}

TEST_CASE("H-01: the limiting-factor form takes the lowest score") {
  const std::vector<double> scores{0.8, 0.5, 1.0};
  CHECK(tidelot::lowest_score(scores, std::vector<double>{1, 1, 1}) == 0.5);
  CHECK(tidelot::lowest_score(scores, std::vector<double>{1, 0, 1}) == 0.8);  // no weight: left out
  const std::vector<double> unknown{0.8, std::nan(""), 0.1};
  CHECK(std::isnan(tidelot::lowest_score(unknown, std::vector<double>{1, 1, 1})));
}

TEST_CASE("H-02: the mean lies between the harmonic and the arithmetic mean") {
  std::mt19937 random(1981);
  std::uniform_real_distribution<double> unit(0.01, 1.0);
  for (int trial = 0; trial < 1000; ++trial) {
    const std::vector<double> s{unit(random), unit(random), unit(random), unit(random)};
    const double geometric = mean(s, {1, 1, 1, 1});
    const double harmonic = 4.0 / (1 / s[0] + 1 / s[1] + 1 / s[2] + 1 / s[3]);
    const double arithmetic = (s[0] + s[1] + s[2] + s[3]) / 4.0;
    const double rounding = 1e-12;
    REQUIRE(*std::min_element(s.begin(), s.end()) <= harmonic + rounding);
    REQUIRE(harmonic <= geometric + rounding);
    REQUIRE(geometric <= arithmetic + rounding);
    REQUIRE(arithmetic <= *std::max_element(s.begin(), s.end()) + rounding);
  }
}

TEST_CASE("H-02: scaled weights change nothing") {
  for (const double factor : {1e-6, 0.1, 7.0, 1e6}) {
    CHECK(mean({0.8, 0.5, 0.3}, {0.5 * factor, 0.3 * factor, 0.2 * factor}) ==
          Approx(mean({0.8, 0.5, 0.3}, {0.5, 0.3, 0.2})).epsilon(1e-12));
  }
}

TEST_CASE("H-02: a zero with weight gives zero, a zero without weight is left out") {
  CHECK(mean({0.0, 0.9, 1.0}, {1e-9, 1, 1}) == 0.0);
  CHECK(mean({0.0, 0.9, 0.4}, {0, 1, 1}) == Approx(std::sqrt(0.9 * 0.4)).epsilon(1e-12));
}
