// SPDX-License-Identifier: Apache-2.0
#include "sites/rectangle.hpp"

#include <boost/geometry.hpp>
#include <catch2/catch.hpp>
#include <random>

using namespace tidelot;
namespace bg = boost::geometry;

namespace {

using Point = bg::model::d2::point_xy<double>;
using Ring = bg::model::polygon<Point>;

Ring ring_of(const Rectangle& rectangle) {
  Ring ring;
  for (const XY corner : rectangle.corners()) {
    bg::append(ring.outer(), Point(corner.x, corner.y));
  }
  bg::correct(ring);
  return ring;
}

bool same(XY a, XY b) { return std::hypot(a.x - b.x, a.y - b.y) < 1e-9; }

}  // namespace

TEST_CASE("corners run clockwise from the north-most, the western of two") {
  const Rectangle north({0, 0}, 0.0, {20, 10});
  CHECK(same(north.corners()[0], {-5, 10}));
  CHECK(same(north.corners()[1], {5, 10}));
  CHECK(same(north.corners()[3], {-5, -10}));
  const Rectangle east({0, 0}, 90.0, {20, 10});
  CHECK(same(east.corners()[0], {-10, 5}));
  CHECK(same(east.corners()[1], {10, 5}));
  const Rectangle turned({0, 0}, 45.0, {20, 10});
  CHECK(turned.corners()[0].y > turned.corners()[1].y);
  CHECK(turned.corners()[0].x < turned.corners()[1].x);
}

TEST_CASE("local coordinates and back") {
  const Rectangle rectangle({100, 200}, 30.0, {20, 10});
  CHECK(same(rectangle.on_grid(rectangle.local({123, 210})), {123, 210}));
  CHECK(
      rectangle.local({100 + std::sin(0.5235987755982988), 200 + std::cos(0.5235987755982988)}).x ==
      Approx(1.0));
}

TEST_CASE("a segment through or inside the rectangle is at distance 0 and the point is common") {
  const Rectangle rectangle({0, 0}, 0.0, {20, 10});
  const NearestPoints through = nearest_points(rectangle, {-50, 3}, {50, 3});
  CHECK(through.distance_m == 0.0);
  CHECK(same(through.on_segment, {-5, 3}));
  CHECK(nearest_points(rectangle, {1, 1}, {1, 1}).distance_m == 0.0);
}

TEST_CASE("nearest points of segments and points outside") {
  const Rectangle rectangle({0, 0}, 0.0, {20, 10});
  const NearestPoints beside = nearest_points(rectangle, {8, -100}, {8, 100});
  CHECK(beside.distance_m == Approx(3.0));
  const NearestPoints corner = nearest_points(rectangle, {8, 14}, {8, 14});
  CHECK(corner.distance_m == Approx(5.0));
  CHECK(same(corner.on_rectangle, {5, 10}));
  CHECK(same(corner.on_segment, {8, 14}));
}

TEST_CASE("rectangles that share an edge touch but do not overlap") {
  const Rectangle a({0, 0}, 30.0, {20, 10});
  const Rectangle beside(a.on_grid({0, 10}), 30.0, {20, 10});
  CHECK_FALSE(overlap(a, beside));
  CHECK(distance_m(a, beside) == Approx(0.0).margin(1e-9));
  CHECK(overlap(a, Rectangle(a.on_grid({0, 9.9}), 30.0, {20, 10})));
  CHECK(overlap(a, a));
  CHECK(overlap(a, Rectangle({0, 0}, 120.0, {2, 1})));
}

TEST_CASE("distances agree with another library") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> place(-60, 60);
  std::uniform_real_distribution<double> side(1, 40);
  for (int trial = 0; trial < 2000; ++trial) {
    const Rectangle a({place(random), place(random)}, 15.0 * (trial % 12),
                      {side(random), side(random)});
    const Rectangle b({place(random), place(random)}, 15.0 * (trial % 7),
                      {side(random), side(random)});
    CAPTURE(trial);
    REQUIRE(distance_m(a, b) == Approx(bg::distance(ring_of(a), ring_of(b))).margin(1e-9));
    REQUIRE(overlap(a, b) == bg::intersects(ring_of(a), ring_of(b)));
    const XY p{place(random), place(random)};
    const XY q{place(random), place(random)};
    const bg::model::segment<Point> segment{Point(p.x, p.y), Point(q.x, q.y)};
    const NearestPoints nearest = nearest_points(a, p, q);
    REQUIRE(nearest.distance_m == Approx(bg::distance(ring_of(a), segment)).margin(1e-9));
    REQUIRE(nearest.distance_m == Approx(std::hypot(nearest.on_rectangle.x - nearest.on_segment.x,
                                                    nearest.on_rectangle.y - nearest.on_segment.y))
                                      .margin(1e-9));
  }
}
