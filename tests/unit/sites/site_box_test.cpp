// SPDX-License-Identifier: Apache-2.0
#include "sites/site_box.hpp"

#include <boost/geometry.hpp>
#include <catch2/catch.hpp>
#include <random>

using namespace tidelot;
namespace bg = boost::geometry;

namespace {

using Point = bg::model::d2::point_xy<double>;
using Ring = bg::model::polygon<Point>;

Ring ring_of(const SiteBox& box) {
  Ring ring;
  for (const XY corner : box.corners()) {
    bg::append(ring.outer(), Point(corner.x, corner.y));
  }
  bg::correct(ring);
  return ring;
}

bool same(XY a, XY b) { return std::hypot(a.x - b.x, a.y - b.y) < 1e-9; }

}  // namespace

TEST_CASE("corners run clockwise from the north-most, the western of two") {
  const SiteBox north({0, 0}, 0.0, {20, 10});
  CHECK(same(north.corners()[0], {-5, 10}));
  CHECK(same(north.corners()[1], {5, 10}));
  CHECK(same(north.corners()[3], {-5, -10}));
  const SiteBox east({0, 0}, 90.0, {20, 10});
  CHECK(same(east.corners()[0], {-10, 5}));
  CHECK(same(east.corners()[1], {10, 5}));
  const SiteBox turned({0, 0}, 45.0, {20, 10});
  CHECK(turned.corners()[0].y > turned.corners()[1].y);
  CHECK(turned.corners()[0].x < turned.corners()[1].x);
}

TEST_CASE("local coordinates and back") {
  const Axes axes({100, 200}, 30.0);
  CHECK(same(axes.on_grid(axes.local({123, 210})), {123, 210}));
  CHECK(axes.local({100 + std::sin(0.5235987755982988), 200 + std::cos(0.5235987755982988)}).x ==
        Approx(1.0));
}

TEST_CASE("a segment through or inside the rectangle is at distance 0 and the point is common") {
  const SiteBox box({0, 0}, 0.0, {20, 10});
  const NearestPoints through = nearest_points(box, {-50, 3}, {50, 3});
  CHECK(through.distance_m == 0.0);
  CHECK(same(through.on_segment, {-5, 3}));
  CHECK(nearest_points(box, {1, 1}, {1, 1}).distance_m == 0.0);
}

TEST_CASE("nearest points of segments and points outside") {
  const SiteBox box({0, 0}, 0.0, {20, 10});
  const NearestPoints beside = nearest_points(box, {8, -100}, {8, 100});
  CHECK(beside.distance_m == Approx(3.0));
  const NearestPoints corner = nearest_points(box, {8, 14}, {8, 14});
  CHECK(corner.distance_m == Approx(5.0));
  CHECK(same(corner.on_box, {5, 10}));
  CHECK(same(corner.on_segment, {8, 14}));
}

TEST_CASE("rectangles that share an edge touch but do not overlap") {
  const SiteBox a({0, 0}, 30.0, {20, 10});
  const Axes axes({0, 0}, 30.0);
  const SiteBox beside(axes.on_grid({0, 10}), 30.0, {20, 10});
  CHECK_FALSE(overlap(a, beside));
  CHECK(distance_m(a, beside) == Approx(0.0).margin(1e-9));
  CHECK(overlap(a, SiteBox(axes.on_grid({0, 9.9}), 30.0, {20, 10})));
  CHECK(overlap(a, a));
  CHECK(overlap(a, SiteBox({0, 0}, 120.0, {2, 1})));
}

TEST_CASE("distances agree with another library") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> place(-60, 60);
  std::uniform_real_distribution<double> side(1, 40);
  for (int trial = 0; trial < 2000; ++trial) {
    const SiteBox a({place(random), place(random)}, 15.0 * (trial % 12),
                    {side(random), side(random)});
    const SiteBox b({place(random), place(random)}, 15.0 * (trial % 7),
                    {side(random), side(random)});
    CAPTURE(trial);
    REQUIRE(distance_m(a, b) == Approx(bg::distance(ring_of(a), ring_of(b))).margin(1e-9));
    REQUIRE(overlap(a, b) == bg::intersects(ring_of(a), ring_of(b)));
    const XY p{place(random), place(random)};
    const XY q{place(random), place(random)};
    const bg::model::segment<Point> segment{Point(p.x, p.y), Point(q.x, q.y)};
    const NearestPoints nearest = nearest_points(a, p, q);
    REQUIRE(nearest.distance_m == Approx(bg::distance(ring_of(a), segment)).margin(1e-9));
    REQUIRE(nearest.distance_m == Approx(std::hypot(nearest.on_box.x - nearest.on_segment.x,
                                                    nearest.on_box.y - nearest.on_segment.y))
                                      .margin(1e-9));
  }
}

namespace {

/// A convex box of any shape: corners on an ellipse, in order.
std::array<XY, 4> any_corners(std::mt19937& random) {
  std::uniform_real_distribution<double> place(-60, 60);
  std::uniform_real_distribution<double> radius(5, 40);
  std::uniform_real_distribution<double> turn(0.2, 1.4);
  const XY centre{place(random), place(random)};
  const XY radii{radius(random), radius(random)};
  double angle = place(random);
  std::array<XY, 4> corners{};
  for (XY& corner : corners) {
    corner = {centre.x + radii.x * std::cos(angle), centre.y + radii.y * std::sin(angle)};
    angle += turn(random);  // 4.2 at most with three of them: less than a turn
  }
  return corners;
}

}  // namespace

TEST_CASE("corners of any box are put in order: clockwise from the north-most") {
  const std::array<XY, 4> corners{XY{0, 0}, XY{30, 5}, XY{25, 18}, XY{-4, 10}};  // the other way
  const SiteBox box(corners);
  CHECK(same(box.corners()[0], {25, 18}));
  CHECK(same(box.corners()[1], {30, 5}));
  CHECK(same(box.corners()[2], {0, 0}));
  CHECK(same(box.corners()[3], {-4, 10}));
  std::mt19937 random(11);
  for (int trial = 0; trial < 200; ++trial) {
    std::array<XY, 4> any = any_corners(random);
    const SiteBox one(any);
    std::reverse(any.begin(), any.end());
    std::rotate(any.begin(), any.begin() + trial % 4, any.end());
    const SiteBox other(any);
    for (std::size_t i = 0; i < 4; ++i) {
      CHECK(one.corners()[i].x == other.corners()[i].x);
      CHECK(one.corners()[i].y == other.corners()[i].y);
      CHECK(one.corners()[0].y >= one.corners()[i].y);
    }
  }
}

TEST_CASE("a rectangle by its corners is the same box as by centre, bearing and size") {
  const SiteBox made({12, -7}, 33.0, {40, 15});
  const SiteBox given(made.corners());
  CHECK(same(given.centre(), made.centre()));
  CHECK(given.reach_m() == Approx(made.reach_m()));
  CHECK(given.core_m() == Approx(made.core_m()));
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(same(given.corners()[i], made.corners()[i]));
    CHECK(same(given.way(i), made.way(i)));
  }
}

TEST_CASE("centre, inset and distances of any box agree with another library") {
  std::mt19937 random(13);
  std::uniform_real_distribution<double> place(-60, 60);
  for (int trial = 0; trial < 2000; ++trial) {
    const SiteBox a(any_corners(random));
    const SiteBox b(any_corners(random));
    CAPTURE(trial);
    Point centre(0.0, 0.0);
    bg::centroid(ring_of(a), centre);
    REQUIRE(same(a.centre(), {centre.x(), centre.y()}));
    REQUIRE(distance_m(a, b) == Approx(bg::distance(ring_of(a), ring_of(b))).margin(1e-9));
    REQUIRE(overlap(a, b) == bg::intersects(ring_of(a), ring_of(b)));
    const XY p{place(random), place(random)};
    const XY q{place(random), place(random)};
    const bg::model::segment<Point> segment{Point(p.x, p.y), Point(q.x, q.y)};
    const NearestPoints nearest = nearest_points(a, p, q);
    REQUIRE(nearest.distance_m == Approx(bg::distance(ring_of(a), segment)).margin(1e-9));
    REQUIRE(bg::distance(ring_of(a), Point(nearest.on_box.x, nearest.on_box.y)) < 1e-9);
    REQUIRE(bg::distance(segment, Point(nearest.on_segment.x, nearest.on_segment.y)) < 1e-9);
    for (const XY corner : a.inset(0.25)) {  // on two of the lines 0.25 m inside of the sides
      int on_lines = 0;
      for (std::size_t side = 0; side < 4; ++side) {
        on_lines += std::abs(a.inside_m(side, corner) - 0.25) < 1e-9 ? 1 : 0;
      }
      REQUIRE(on_lines >= 2);
    }
  }
}
