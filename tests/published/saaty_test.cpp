// SPDX-License-Identifier: Apache-2.0
// Saaty 1977 (J. Math. Psychol. 15:234-281, matrix from memory) and 2008 (Int. J. Serv. Sci.
// 1:83-98, matrix and weights read second-hand): weights from judgements in pairs. Digits beyond
// the published three were computed independently of this program.
#include <catch2/catch.hpp>
#include <stdexcept>
#include <vector>

#include "tidelot/core/judgement.hpp"

using namespace tidelot;

namespace {

void check_weights(const JudgedWeights& found, const std::vector<double>& expected, double margin) {
  REQUIRE(found.weights.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CAPTURE(i);
    CHECK(found.weights[i] == Approx(expected[i]).margin(margin));
  }
}

}  // namespace

TEST_CASE("H-03: seven drinks, as published in 2008") {
  const std::vector<double> matrix{
      1,       9,       5,       2,       1,       1,       1.0 / 2, 1.0 / 9, 1,       1.0 / 3,
      1.0 / 9, 1.0 / 9, 1.0 / 9, 1.0 / 9, 1.0 / 5, 3,       1,       1.0 / 3, 1.0 / 4, 1.0 / 3,
      1.0 / 9, 1.0 / 2, 9,       3,       1,       1.0 / 2, 1,       1.0 / 3, 1,       9,
      4,       2,       1,       2,       1.0 / 2, 1,       9,       3,       1,       1.0 / 2,
      1,       1.0 / 3, 2,       9,       9,       3,       2,       3,       1};
  const JudgedWeights found = judged_weights(matrix, 7);
  check_weights(found, {.177, .019, .042, .116, .190, .129, .327}, 6e-4);
  check_weights(found, {0.177457, 0.019149, 0.041831, 0.116417, 0.189572, 0.128781, 0.326793},
                1e-6);
  CHECK(found.largest_eigenvalue == Approx(7.176629).margin(1e-6));
  CHECK(found.consistency_index == Approx(0.029438).margin(1e-6));
  CHECK(found.consistency_ratio == Approx(0.022302).margin(1e-6));
}

TEST_CASE("H-04: the seven by seven matrix of 1977") {
  const std::vector<double> matrix{
      1,       4,       9,       6,       6,       5,       5,       1.0 / 4, 1,       7,
      5,       5,       3,       4,       1.0 / 9, 1.0 / 7, 1,       1.0 / 5, 1.0 / 5, 1.0 / 7,
      1.0 / 5, 1.0 / 6, 1.0 / 5, 5,       1,       1,       1.0 / 3, 1.0 / 3, 1.0 / 6, 1.0 / 5,
      5,       1,       1,       1.0 / 3, 1.0 / 3, 1.0 / 5, 1.0 / 3, 7,       3,       3,
      1,       2,       1.0 / 5, 1.0 / 4, 5,       3,       3,       1.0 / 2, 1};
  const JudgedWeights found = judged_weights(matrix, 7);
  check_weights(found, {.427, .230, .021, .052, .052, .123, .094}, 6e-4);
  check_weights(found, {0.4271, 0.2303, 0.0208, 0.0524, 0.0524, 0.1227, 0.0943}, 6e-5);
  CHECK(found.largest_eigenvalue == Approx(7.60772).margin(1e-5));
  CHECK(found.consistency_index == Approx(0.10129).margin(1e-5));
  CHECK(found.consistency_ratio == Approx(0.0767).margin(1e-4));
}

TEST_CASE("H-05, H-06: smaller matrices") {
  const JudgedWeights three =
      judged_weights(std::vector<double>{1, 3, 5, 1.0 / 3, 1, 3, 1.0 / 5, 1.0 / 3, 1}, 3);
  check_weights(three, {0.636986, 0.258285, 0.104729}, 1e-6);
  CHECK(three.largest_eigenvalue == Approx(3.038511).margin(1e-6));
  CHECK(three.consistency_ratio == Approx(0.033199).margin(1e-6));
  const JudgedWeights four =
      judged_weights(std::vector<double>{1, 2, 4, 3, 1.0 / 2, 1, 3, 2, 1.0 / 4, 1.0 / 3, 1, 1.0 / 2,
                                         1.0 / 3, 1.0 / 2, 2, 1},
                     4);
  check_weights(four, {0.467296, 0.277181, 0.095435, 0.160088}, 1e-6);
  CHECK(four.largest_eigenvalue == Approx(4.030983).margin(1e-6));
  CHECK(four.consistency_ratio == Approx(0.011475).margin(1e-6));
}

TEST_CASE("H-07: consistent judgements have the ratio 0") {
  const JudgedWeights found =
      judged_weights(std::vector<double>{1, 2, 6, 1.0 / 2, 1, 3, 1.0 / 6, 1.0 / 3, 1}, 3);
  check_weights(found, {0.6, 0.3, 0.1}, 1e-12);
  CHECK(found.consistency_ratio == Approx(0.0).margin(1e-12));
}

TEST_CASE("H-08: judgements in a circle are far from consistent") {
  const JudgedWeights found =
      judged_weights(std::vector<double>{1, 9, 1.0 / 9, 1.0 / 9, 1, 9, 9, 1.0 / 9, 1}, 3);
  check_weights(found, {1.0 / 3, 1.0 / 3, 1.0 / 3}, 1e-9);
  CHECK(found.largest_eigenvalue == Approx(10.1111).margin(1e-4));
  CHECK(found.consistency_ratio == Approx(6.13).margin(0.005));
}

TEST_CASE("H-08: one or two criteria have no ratio to divide by") {
  CHECK(judged_weights(std::vector<double>{1}, 1).consistency_ratio == 0.0);
  const JudgedWeights two = judged_weights(std::vector<double>{1, 4, 0.25, 1}, 2);
  check_weights(two, {0.8, 0.2}, 1e-12);
  CHECK(two.consistency_ratio == 0.0);
  CHECK_THROWS_AS(judged_weights(std::vector<double>{1, 0, 1, 1}, 2), std::invalid_argument);
  CHECK_THROWS_AS(judged_weights(std::vector<double>{1, 2}, 2), std::invalid_argument);
}
