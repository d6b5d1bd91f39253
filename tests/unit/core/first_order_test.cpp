// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/first_order.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "tidelot/core/draws.hpp"

using namespace tidelot;

namespace {

std::vector<double> input(std::uint32_t stream, int draws, std::uint64_t seed = 1) {
  return latin_hypercube(seed, {stream, 0, 0}, draws);
}

}  // namespace

TEST_CASE("Shares of a sum of uniform inputs are the squares of their coefficients") {
  constexpr int kDraws = 2000;
  const auto a = input(1, kDraws), b = input(2, kDraws), c = input(3, kDraws);
  std::vector<double> y;
  for (std::size_t i = 0; i < a.size(); ++i) {
    y.push_back(3.0 * a[i] - 2.0 * b[i] + c[i]);
  }
  CHECK(first_order_share(a, y) == Approx(9.0 / 14.0).margin(0.02));
  CHECK(first_order_share(b, y) == Approx(4.0 / 14.0).margin(0.02));
  CHECK(first_order_share(c, y) == Approx(1.0 / 14.0).margin(0.02));
}

TEST_CASE("An optimum in the middle of an input is seen, a product of two is nobody's alone") {
  constexpr int kDraws = 2000;
  const auto a = input(1, kDraws), b = input(2, kDraws), c = input(3, kDraws);
  std::vector<double> y;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const double x = 2.0 * a[i] - 1.0, z = 2.0 * b[i] - 1.0;
    y.push_back(x * x + x * z);
  }
  // Var x^2 = 4/45 and Var xz = 1/9 on -1..1.
  CHECK(first_order_share(a, y) == Approx((4.0 / 45.0) / (4.0 / 45.0 + 1.0 / 9.0)).margin(0.04));
  CHECK(first_order_share(b, y) < 0.01);
  CHECK(first_order_share(c, y) < 0.01);
}

TEST_CASE("An input without effect passes the share of chance once in twenty") {
  for (const int draws : {16, 64}) {
    int passed = 0;
    constexpr int kTrials = 2000;
    const double limit = chance_share(static_cast<std::size_t>(draws));
    for (std::uint32_t trial = 0; trial < kTrials; ++trial) {
      const auto a = input(1, draws, trial);
      std::vector<double> y;
      for (std::uint32_t i = 0; i < static_cast<std::uint32_t>(draws); ++i) {
        y.push_back(normal_quantile(uniform_at(trial, {9, 0, 0}, i)));
      }
      passed += first_order_share(a, y) > limit ? 1 : 0;
    }
    CAPTURE(draws);
    CHECK(passed / static_cast<double>(kTrials) == Approx(0.05).margin(0.02));
  }
}

TEST_CASE("What does not vary has no share") {
  const auto a = input(1, 64);
  CHECK(first_order_share(a, std::vector<double>(64, 3.0)) == 0.0);
  CHECK(first_order_share(std::vector<double>(64, 3.0), a) == 0.0);
  const std::vector<double> few{1, 2, 3, 4};
  CHECK(first_order_share(few, few) == 0.0);
  CHECK(chance_share(4) == 1.0);
}
