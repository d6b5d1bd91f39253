// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/farm_box.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidelot;

namespace {

double inside(double flow, double inflow, const std::function<double(double)>& uptake) {
  return inflow - nitrogen_drop(flow, inflow, uptake);
}

}  // namespace

TEST_CASE("a crop that gives nitrogen back leaves more than came in") {
  const double c_in = inside(2.0, 5.0, [](double c) { return c < 7.0 ? c - 7.0 : 0.0; });
  CHECK(c_in == Approx(17.0 / 3.0).epsilon(1e-13));  // 2 (5 - C) = C - 7
}

TEST_CASE("an uptake that falls at high nitrogen still balances") {
  const auto uptake = [](double c) { return 40.0 * c * std::exp(-c); };
  const double c_in = inside(2.0, 10.0, uptake);
  CHECK(2.0 * (10.0 - c_in) == Approx(uptake(c_in)).epsilon(1e-12));
}

TEST_CASE("a crop that wants more than there is, and water that stands, leave nothing") {
  CHECK(inside(1.0, 5.0, [](double) { return 6.0; }) == 0.0);
  CHECK(inside(0.0, 5.0, [](double c) { return c; }) == 0.0);
}

TEST_CASE("an uptake with a kink or a jump is found to the last digits") {
  const auto kink = [](double c) { return c > 3.0 ? 100.0 * (c - 3.0) : 0.0; };
  CHECK(inside(1.0, 5.0, kink) == Approx(305.0 / 101.0).epsilon(1e-13));
  const auto jump = [](double c) { return c > 3.0 ? 4.0 : 0.0; };
  CHECK(inside(1.0, 5.0, jump) == Approx(3.0).epsilon(1e-14));
}

TEST_CASE("few looks at the uptake are enough where little is drawn down") {
  int looks = 0;
  const auto uptake = [&](double c) {
    ++looks;
    return 0.01 * c / (2.0 + c);
  };
  const double c_in = inside(1.0, 10.0, uptake);
  CHECK(1.0 * (10.0 - c_in) == Approx(0.01 * c_in / (2.0 + c_in)).epsilon(1e-12));
  CHECK(looks <= 5);
}
