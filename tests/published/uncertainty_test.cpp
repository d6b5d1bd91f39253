// SPDX-License-Identifier: Apache-2.0
// Distributions against closed forms and published numbers.
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <utility>

#include "tidelot/core/draws.hpp"

using namespace tidelot;

TEST_CASE("Philox gives the known answers of its authors' library, version 1.14") {
  // kat_vectors of Random123: philox4x32, 10 rounds, counter and key 0: 6627e8d5 e169c58d ...
  const std::uint64_t whole = 0x6627e8d5e169c58dULL;
  CHECK(uniform_at(0, {0, 0, 0}, 0) == (static_cast<double>(whole >> 11U) + 0.5) * 0x1p-53);
}

TEST_CASE("Triangular quantiles by their closed form: 2, 5, 11") {
  const Triangular t{2.0, 5.0, 11.0};
  constexpr std::array<std::pair<double, double>, 5> kQuantiles{
      {{0.05, 3.161895}, {0.25, 4.598076}, {0.50, 5.803848}, {0.75, 7.325765}, {0.95, 9.356832}}};
  for (const auto& [p, value] : kQuantiles) {
    CHECK(triangular_quantile(p, t) == Approx(value).margin(1e-6));
  }
}

TEST_CASE("10 000 draws of a triangle have its mean and variance: 6 and 3.5, any seed") {
  constexpr int kDraws = 10000;
  for (std::uint64_t seed : {1ULL, 42ULL, 20261126ULL}) {
    double sum = 0.0, squares = 0.0;
    for (std::uint32_t i = 0; i < kDraws; ++i) {
      const double x = triangular_quantile(uniform_at(seed, {1, 0, 0}, i), {2.0, 5.0, 11.0});
      sum += x;
      squares += x * x;
    }
    const double mean = sum / kDraws;
    CHECK(mean == Approx(6.0).margin(0.06));
    CHECK(squares / kDraws - mean * mean == Approx(3.5).epsilon(0.06));
  }
}

TEST_CASE("A lognormal of mean 10 and variation 0.3 has its closed-form quantiles") {
  CHECK(10.0 * lognormal_factor(0.0, 0.3) == Approx(9.578263).margin(1e-6));
  CHECK(10.0 * lognormal_factor(normal_quantile(0.05), 0.3) == Approx(5.909921).margin(1e-6));
  CHECK(10.0 * lognormal_factor(normal_quantile(0.95), 0.3) == Approx(15.523579).margin(1e-6));
}

TEST_CASE("Normal deviates of the tables (Abramowitz & Stegun 1964, table 26.5, from memory)") {
  CHECK(normal_quantile(0.9) == Approx(1.2815516).margin(1e-6));
  CHECK(normal_quantile(0.975) == Approx(1.9599640).margin(1e-6));
  CHECK(normal_quantile(0.5) == Approx(0.0).margin(1e-15));
}

// Wilks 1941, Ann. Math. Stat. 12:91: so many runs hold 95 % of what may come with 95 % confidence.
TEST_CASE("59 draws give a one-sided 95/95 bound, 93 a two-sided one") {
  const auto one_sided = [](int n) { return 1.0 - std::pow(0.95, n); };
  const auto two_sided = [](int n) {
    return 1.0 - std::pow(0.95, n) - n * 0.05 * std::pow(0.95, n - 1);
  };
  CHECK(one_sided(59) >= 0.95);
  CHECK(one_sided(58) < 0.95);
  CHECK(two_sided(93) == Approx(0.95002).margin(1e-5));
  CHECK(two_sided(92) < 0.95);

  // And the generator keeps to it: the largest of 59 numbers passes 0.95 in 95 % of all trials.
  constexpr int kTrials = 4000;
  int held = 0;
  for (std::uint32_t trial = 0; trial < kTrials; ++trial) {
    double largest = 0.0;
    for (std::uint32_t i = 0; i < 59; ++i) {
      largest = std::max(largest, uniform_at(7, {1, trial, 0}, i));
    }
    held += largest > 0.95 ? 1 : 0;
  }
  CHECK(held / static_cast<double>(kTrials) == Approx(one_sided(59)).margin(0.011));
}
