// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/geometry.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace tidelot;

namespace {

Path box(double west, double south, double east, double north) {
  return {{west, south}, {east, south}, {east, north}, {west, north}, {west, south}};
}

}  // namespace

TEST_CASE("Distance to a segment is to its nearest point, its ends included") {
  const XY a{0, 0};
  const XY b{10, 0};
  CHECK(distance_to_segment({5, 3}, a, b) == 3.0);
  CHECK(distance_to_segment({5, -3}, a, b) == 3.0);
  CHECK(distance_to_segment({-3, 4}, a, b) == 5.0);
  CHECK(distance_to_segment({13, 4}, a, b) == 5.0);
  CHECK(distance_to_segment({10, 0}, a, b) == 0.0);
  CHECK(distance_to_segment({4, 0}, a, b) == 0.0);
}

TEST_CASE("A segment without length is a point") {
  CHECK(distance_to_segment({3, 4}, {0, 0}, {0, 0}) == 5.0);
  CHECK(distance_to_segment({0, 0}, {0, 0}, {0, 0}) == 0.0);
}

TEST_CASE("Distance holds at the size of projected coordinates and in both directions") {
  const XY a{308325.0, 4607921.0};
  const XY b{308425.0, 4608021.0};
  const XY p{308425.0, 4607921.0};
  CHECK(distance_to_segment(p, a, b) == Approx(100.0 / std::sqrt(2.0)).epsilon(1e-12));
  CHECK(distance_to_segment(p, b, a) == Approx(distance_to_segment(p, a, b)).epsilon(1e-12));
}

TEST_CASE("A distance from somewhere unknown is unknown") {
  CHECK(std::isnan(distance_to_segment({std::nan(""), 0}, {0, 0}, {1, 0})));
}

TEST_CASE("Inside is inside whatever the direction of the ring") {
  Polygon square{box(0, 0, 10, 10), {}};
  CHECK(contains(square, {5, 5}));
  CHECK_FALSE(contains(square, {-1, 5}));
  CHECK_FALSE(contains(square, {11, 5}));
  CHECK_FALSE(contains(square, {5, 11}));
  CHECK_FALSE(contains(square, {5, -1}));
  std::reverse(square.outer.begin(), square.outer.end());
  CHECK(contains(square, {5, 5}));
  CHECK_FALSE(contains(square, {11, 5}));
}

TEST_CASE("A hole is outside, an island drawn in the hole inside") {
  const Polygon ring{box(0, 0, 10, 10), {box(2, 2, 8, 8), box(4, 4, 6, 6)}};
  CHECK(contains(ring, {1, 1}));
  CHECK_FALSE(contains(ring, {3, 3}));
  CHECK(contains(ring, {5, 5}));
}

TEST_CASE("A ray through vertices counts each crossing once") {
  const Polygon diamond{{{0, -5}, {5, 0}, {0, 5}, {-5, 0}, {0, -5}}, {}};
  CHECK(contains(diamond, {0, 0}));
  CHECK_FALSE(contains(diamond, {-6, 0}));
  CHECK_FALSE(contains(diamond, {-6, 5}));
  CHECK_FALSE(contains(diamond, {-6, -5}));
  const Polygon notch{{{0, 0}, {10, 0}, {10, 10}, {5, 5}, {0, 10}, {0, 0}}, {}};
  CHECK(contains(notch, {1, 5}));
  CHECK_FALSE(contains(notch, {-1, 5}));
  CHECK_FALSE(contains(notch, {5, 7}));
}

TEST_CASE("Nothing is inside a polygon without vertices, nor is an unknown point inside any") {
  CHECK_FALSE(contains(Polygon{}, {0, 0}));
  CHECK_FALSE(contains({box(0, 0, 1, 1), {}}, {std::nan(""), std::nan("")}));
}

TEST_CASE("A shape is empty until it holds something") {
  Shape shape;
  CHECK(shape.empty());
  shape.points.push_back({1, 1});
  CHECK_FALSE(shape.empty());
}
