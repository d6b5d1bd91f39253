// SPDX-License-Identifier: Apache-2.0
// Effective fetch: Saville 1954 as in the Shore Protection Manual 1973 to 1977 (15 radials of 6
// degrees), and the mean of 9 radials of 3 degrees of the 1984 manual. Expected figures computed
// from the printed sums; shapes with a closed form.
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

#include "tidelot/criteria/fetch.hpp"

using namespace tidelot;

namespace {

constexpr double kRadian = std::numbers::pi / 180.0;

/// From the middle of the end of a channel of half-width 1 km and length 20 km, looking along it.
double channel_km(double angle_deg) {
  const double sine = std::abs(std::sin(angle_deg * kRadian));
  return std::min(20.0 / std::cos(angle_deg * kRadian), sine > 0.0 ? 1.0 / sine : 1e9);
}

template <std::size_t Count>
std::array<double, Count> channel(double step_deg) {
  std::array<double, Count> radials{};
  for (std::size_t i = 0; i < Count; ++i) {
    radials[i] = channel_km((static_cast<double>(i) - (Count - 1) / 2.0) * step_deg);
  }
  return radials;
}

}  // namespace

TEST_CASE("W-08: the cosines of 15 radials of 6 degrees add up to 13.510917") {
  std::vector<double> only(15, 0.0);
  only[7] = 13.510917;  // the middle radial alone: its length over the sum of cosines is 1
  CHECK(effective_fetch(only, 6.0) == Approx(1.0).epsilon(1e-6));
}

TEST_CASE("W-09: a channel looked along, by both sums and by the mean of 1984") {
  const auto fifteen = channel<15>(6.0);
  CHECK(effective_fetch(fifteen, 6.0) == Approx(4.9977).margin(1e-4));
  CHECK(effective_fetch_projected(fifteen, 6.0) == Approx(4.8082).margin(1e-4));
  const auto nine = channel<9>(3.0);
  CHECK(std::accumulate(nine.begin(), nine.end(), 0.0) / 9.0 == Approx(11.0836).margin(1e-4));
}

TEST_CASE("W-09: the middle of a round bay") {
  const std::vector<double> round(15, 10.0);
  CHECK(effective_fetch(round, 6.0) == Approx(10.0));
  CHECK(effective_fetch_projected(round, 6.0) == Approx(9.0915).margin(1e-4));
}
