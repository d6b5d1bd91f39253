// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/draws.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>
#include <set>

using namespace tidelot;

TEST_CASE("A random number depends on its place alone") {
  CHECK(uniform_at(1, {2, 3, 4}, 5) == uniform_at(1, {2, 3, 4}, 5));
  std::set<double> all;
  for (std::uint64_t seed : {1ULL, 2ULL, 1ULL << 40U}) {
    for (std::uint32_t k : {0U, 1U, 7U}) {
      all.insert(uniform_at(seed, {k, 0, 0}, 0));
      all.insert(uniform_at(seed, {0, k, 0}, 0));
      all.insert(uniform_at(seed, {0, 0, k}, 0));
      all.insert(uniform_at(seed, {0, 0, 0}, k));
    }
  }
  CHECK(all.size() == 3 * (1 + 4 * 2));
}

TEST_CASE("Uniform numbers fill the interval evenly") {
  constexpr int kDraws = 20000;
  double sum = 0.0, squares = 0.0;
  std::array<int, 10> tenth{};
  for (std::uint32_t i = 0; i < kDraws; ++i) {
    const double u = uniform_at(11, {3, 0, 0}, i);
    REQUIRE((u > 0.0 && u < 1.0));
    sum += u;
    squares += u * u;
    ++tenth.at(static_cast<std::size_t>(u * 10.0));
  }
  const double mean = sum / kDraws;
  CHECK(mean == Approx(0.5).margin(4.0 * std::sqrt(1.0 / 12.0 / kDraws)));
  CHECK(squares / kDraws - mean * mean == Approx(1.0 / 12.0).epsilon(0.03));
  double chi = 0.0;
  for (const int n : tenth) {
    chi += (n - kDraws / 10.0) * (n - kDraws / 10.0) / (kDraws / 10.0);
  }
  CHECK(chi < 27.9);  // 9 degrees of freedom: one in a thousand lies above
}

TEST_CASE("A Latin hypercube has one number in each part, in another order a place") {
  for (const int draws : {1, 2, 7, 64}) {
    auto u = latin_hypercube(5, {1, 0, 0}, draws);
    const auto other = latin_hypercube(5, {2, 0, 0}, draws);
    if (draws > 2) {
      CHECK(u != other);
      CHECK_FALSE(std::is_sorted(u.begin(), u.end()));
    }
    std::sort(u.begin(), u.end());
    for (int i = 0; i < draws; ++i) {
      CHECK(u[static_cast<std::size_t>(i)] > static_cast<double>(i) / draws);
      CHECK(u[static_cast<std::size_t>(i)] < static_cast<double>(i + 1) / draws);
    }
  }
  CHECK(latin_hypercube(5, {1, 0, 0}, 0).empty());
}

TEST_CASE("Two inputs of a Latin hypercube are as good as independent") {
  constexpr int kDraws = 4096;
  const auto a = latin_hypercube(5, {1, 0, 0}, kDraws);
  const auto b = latin_hypercube(5, {2, 0, 0}, kDraws);
  double product = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    product += (a[i] - 0.5) * (b[i] - 0.5);
  }
  CHECK(std::abs(product / kDraws * 12.0) < 4.0 / std::sqrt(kDraws));
}

TEST_CASE("A lognormal factor has mean one and the coefficient of variation asked for") {
  constexpr int kDraws = 20000;
  const auto u = latin_hypercube(9, {1, 0, 0}, kDraws);
  double sum = 0.0, squares = 0.0;
  for (const double p : u) {
    const double f = lognormal_factor(normal_quantile(p), 0.4);
    sum += f;
    squares += f * f;
  }
  const double mean = sum / kDraws;
  CHECK(mean == Approx(1.0).epsilon(0.002));
  CHECK(std::sqrt(squares / kDraws - mean * mean) == Approx(0.4).epsilon(0.02));
  CHECK(lognormal_factor(1.0, 0.0) == 1.0);
}

TEST_CASE("Quantiles lie between neighbours in a straight line") {
  std::array<float, 5> values{5, 1, 4, 2, 3};
  const Quantiles q = quantiles_of(values);
  CHECK(q.p10 == Approx(1.4));
  CHECK(q.p50 == 3.0);
  CHECK(q.p90 == Approx(4.6));
  CHECK(std::isnan(quantile_of_sorted({}, 0.5)));
  const std::array<float, 1> one{7};
  CHECK(quantile_of_sorted(one, 0.9) == 7.0);
}

TEST_CASE("A triangle without width is its mode") {
  CHECK(triangular_quantile(0.3, {2.0, 2.0, 2.0}) == 2.0);
  CHECK(triangular_quantile(0.0, {1.0, 2.0, 4.0}) == 1.0);
  CHECK(triangular_quantile(1.0, {1.0, 2.0, 4.0}) == 4.0);
  CHECK(triangular_quantile(0.0, {1.0, 1.0, 4.0}) == 1.0);
}
