// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/curve.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <stdexcept>

using namespace tidelot;

namespace {
constexpr double kInf = std::numeric_limits<double>::infinity();
constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
}  // namespace

TEST_CASE("A curve without points, not finite or falling in x is refused") {
  CHECK_THROWS_AS(Curve(std::vector<Curve::Point>{}), std::invalid_argument);
  CHECK_THROWS_AS(Curve({{0, 0}, {kNan, 1}}), std::invalid_argument);
  CHECK_THROWS_AS(Curve({{0, kNan}}), std::invalid_argument);
  CHECK_THROWS_AS(Curve({{0, 0}, {kInf, 1}}), std::invalid_argument);
  CHECK_THROWS_AS(Curve({{0, -kInf}}), std::invalid_argument);
  CHECK_THROWS_AS(Curve({{1, 0}, {0.999, 1}}), std::invalid_argument);
}

TEST_CASE("Unknown stays unknown") {
  CHECK(std::isnan(Curve({{0, 0}, {1, 1}})(kNan)));
  CHECK(std::isnan(Curve({{3, 0.5}})(kNan)));
}

TEST_CASE("A curve is flat beyond its ends, infinity included") {
  const Curve curve({{3, 0.25}, {5, 1}, {15, 0.5}});
  CHECK(curve(2.999) == 0.25);
  CHECK(curve(-kInf) == 0.25);
  CHECK(curve(15.001) == 0.5);
  CHECK(curve(kInf) == 0.5);
  CHECK(Curve({{7, 0.3}})(100) == 0.3);
}

TEST_CASE("A curve goes through its points and straight between them") {
  const Curve curve({{3, 0}, {5, 1}, {15, 1}, {30, 0}});
  CHECK(curve(3) == 0.0);
  CHECK(curve(5) == 1.0);
  CHECK(curve(10) == 1.0);
  CHECK(curve(30) == 0.0);
  CHECK(curve(4) == 0.5);
  CHECK(curve(22.5) == 0.5);
}

TEST_CASE("Two points at one x make a step, whose x takes the later y") {
  const Curve curve({{0, 0.1}, {2, 0.2}, {2, 0.9}, {4, 1}});
  CHECK(curve(2) == 0.9);
  CHECK(curve(std::nextafter(2.0, 0.0)) == Approx(0.2));
  const Curve at_start({{1, 0}, {1, 1}, {2, 1}});
  CHECK(at_start(1) == 1.0);
  CHECK(at_start(0.999) == 0.0);
  const Curve at_end({{1, 1}, {2, 1}, {2, 0}});
  CHECK(at_end(2) == 0.0);
  CHECK(at_end(std::nextafter(2.0, 0.0)) == 1.0);
  const Curve only({{1, 0}, {1, 0.5}, {1, 1}});
  CHECK(only(0.5) == 0.0);
  CHECK(only(1) == 1.0);
}

TEST_CASE("A value between two points never leaves the range of their y") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  for (int i = 0; i < 200'000; ++i) {
    const double y0 = unit(random);
    const double y1 = unit(random);
    const double x0 = unit(random);
    const double x1 = x0 + unit(random) + 1e-6;
    const double y = Curve({{x0, y0}, {x1, y1}})(std::nextafter(x1, x0));
    if (y < std::min(y0, y1) || y > std::max(y0, y1)) {
      FAIL("from " << y0 << " to " << y1 << " gave " << y - y1 << " beyond");
    }
  }
  SUCCEED();
}

TEST_CASE("Curves are equal when their points are") {
  CHECK(Curve({{0, 0}, {1, 1}}) == Curve({{0, 0}, {1, 1}}));
  CHECK_FALSE(Curve({{0, 0}, {1, 1}}) == Curve({{0, 0}, {1, 0.5}}));
}
