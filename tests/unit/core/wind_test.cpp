// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/wind.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <stdexcept>
#include <vector>

using namespace tidelot;

TEST_CASE("Gumbel's fit finds the distribution that the maxima came from") {
  std::mt19937_64 random(7);
  std::vector<double> maxima;
  for (int year = 0; year < 20000; ++year) {
    const double p = (static_cast<double>(random() >> 11U) + 0.5) * 0x1p-53;
    maxima.push_back(20.0 - 2.0 * std::log(-std::log(p)));
  }
  CHECK(gumbel_return_speed(maxima, 1.0) == Approx(20.0).margin(0.1));
  CHECK(gumbel_return_speed(maxima, 50.0) == Approx(20.0 + 2.0 * std::log(50.0)).margin(0.3));
  CHECK_THROWS_AS(gumbel_return_speed(std::vector<double>{21.0}, 50.0), std::invalid_argument);
}

TEST_CASE("wind at 10 m is less than that higher up") {
  CHECK(wind_at_10m(12.0, 10.0) == 12.0);
  CHECK(wind_at_10m(12.0, 1280.0) == Approx(6.0));
}
