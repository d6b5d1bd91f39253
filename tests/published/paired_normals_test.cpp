// SPDX-License-Identifier: Apache-2.0
// Two bays whose members are normal: the chance that one is above the other is, in closed form,
// P(A > B) = Phi((mA - mB) / sqrt(vA + vB - 2 c)), c their covariance, since A - B is normal.
// Normal distribution function: Abramowitz & Stegun 1964, table 26.1 (Phi(0.5) = 0.69146, Phi(1) =
// 0.84134, Phi(2) = 0.97725).
#include <catch2/catch.hpp>
#include <cmath>

#include "tidelot/core/draws.hpp"
#include "tidelot/sites/spread.hpp"

using namespace tidelot;

namespace {

constexpr int kDraws = 4000;

/// Standard normal deviates, as members have them.
std::vector<double> deviates(std::uint32_t stream) {
  std::vector<double> out = latin_hypercube(1, {stream, 0, 0}, kDraws);
  for (double& value : out) {
    value = normal_quantile(value);
  }
  return out;
}

/// Bays with a crop in common: mean + crop_sd * (the crop's deviate) + own_sd * (their own).
double chance(double mean_a, double mean_b, double crop_sd, double own_sd) {
  const std::vector<double> crop = deviates(1), own_a = deviates(2), own_b = deviates(3);
  std::vector<double> a, b;
  for (std::size_t i = 0; i < kDraws; ++i) {
    a.push_back(mean_a + crop_sd * crop[i] + own_sd * own_a[i]);
    b.push_back(mean_b + crop_sd * crop[i] + own_sd * own_b[i]);
  }
  return chance_above(a, b);
}

double three_errors(double p) { return 3.0 * std::sqrt(p * (1.0 - p) / kDraws); }

}  // namespace

TEST_CASE("chances of two normal bays are those of the closed form", "[published]") {
  const double root2 = std::sqrt(2.0);
  CHECK(chance(10, 10, 0, 1) == Approx(0.5).margin(three_errors(0.5)));
  CHECK(chance(10 + 0.5 * root2, 10, 0, 1) == Approx(0.69146).margin(three_errors(0.69146)));
  CHECK(chance(10 + root2, 10, 0, 1) == Approx(0.84134).margin(three_errors(0.84134)));
  CHECK(chance(10 + 2 * root2, 10, 0, 1) == Approx(0.97725).margin(three_errors(0.97725)));
  CHECK(chance(10 - root2, 10, 0, 1) == Approx(1 - 0.84134).margin(three_errors(0.84134)));
}

TEST_CASE("what both bays share drops out of the chance", "[published]") {
  // Unpaired the crop's spread of 5 would bring Phi(1) down to Phi(0.1961) = 0.5777.
  CHECK(chance(10 + std::sqrt(2.0), 10, 5, 1) == Approx(0.84134).margin(three_errors(0.84134)));
}
