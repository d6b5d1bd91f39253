// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/random_field.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace tidelot;

namespace {

constexpr int kDraws = 4000;
constexpr double kLength_m = 500.0;

double correlation(const std::vector<float>& a, const std::vector<float>& b) {
  double ab = 0.0, aa = 0.0, bb = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ab += static_cast<double>(a[i] * b[i]);
    aa += static_cast<double>(a[i] * a[i]);
    bb += static_cast<double>(b[i] * b[i]);
  }
  return ab / std::sqrt(aa * bb);
}

}  // namespace

TEST_CASE("Every place of a random field has normal deviates") {
  RandomField field(1, 2, kDraws, kLength_m);
  for (const XY place : {XY{0, 0}, XY{217, -4031}, XY{3.7e5, 4.56e6}}) {
    const auto z = field.at(place);
    double sum = 0.0, squares = 0.0;
    int beyond = 0;
    for (const float value : z) {
      sum += static_cast<double>(value);
      squares += static_cast<double>(value) * static_cast<double>(value);
      beyond += std::abs(value) > 1.96F ? 1 : 0;
    }
    CHECK(sum / kDraws == Approx(0.0).margin(0.06));
    CHECK(squares / kDraws == Approx(1.0).margin(0.08));
    CHECK(beyond / static_cast<double>(kDraws) == Approx(0.05).margin(0.012));
  }
}

TEST_CASE("The correlation falls with the distance as the length says, whatever the direction") {
  RandomField field(3, 1, kDraws, kLength_m);
  for (const XY from : {XY{0, 0}, XY{130, 280}, XY{-411, 97}}) {
    const auto here = field.at(from);
    for (const double share : {0.1, 0.5, 1.0, 1.5, 4.0}) {
      const double d = share * kLength_m;
      for (const XY step : {XY{d, 0}, XY{0, -d}, XY{d * std::sqrt(0.5), d * std::sqrt(0.5)}}) {
        CAPTURE(from.x, share, step.x, step.y);
        CHECK(correlation(here, field.at({from.x + step.x, from.y + step.y})) ==
              Approx(std::exp(-share * share)).margin(0.05 + 0.05));  // and 3 sigma of the draws
      }
    }
  }
}

TEST_CASE("A random field is the same whoever asks, and another for another stream or seed") {
  RandomField one(7, 1, 8, kLength_m);
  RandomField same(7, 1, 8, kLength_m);
  (void)same.at({9e4, -3e4});  // it met other places before
  CHECK(one.at({120, 80}) == same.at({120, 80}));
  CHECK(one.at({120, 80}) != RandomField(7, 2, 8, kLength_m).at({120, 80}));
  CHECK(one.at({120, 80}) != RandomField(8, 1, 8, kLength_m).at({120, 80}));
}
