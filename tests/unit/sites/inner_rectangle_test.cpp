// SPDX-License-Identifier: Apache-2.0
#include "sites/inner_rectangle.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

using namespace tidelot;

namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

double area_of(const InnerRectangle& inner) { return inner.size.length_m * inner.size.width_m; }

/// A convex box: corners on an ellipse, in order.
SiteBox any_box(std::mt19937& random) {
  std::uniform_real_distribution<double> radius(20, 200);
  std::uniform_real_distribution<double> turn(0.2, 1.4);
  const XY radii{radius(random), radius(random)};
  double angle = radius(random);
  std::array<XY, 4> corners{};
  for (XY& corner : corners) {
    corner = {500.0 + radii.x * std::cos(angle), 900.0 + radii.y * std::sin(angle)};
    angle += turn(random);
  }
  return SiteBox(corners);
}

/// How far to both sides a level line at a height may reach inside of a box that is turned so that
/// its side lies level, by the half-planes of its sides.
void narrow(const std::array<XY, 4>& corners, double y, double& low, double& high) {
  for (std::size_t i = 0; i < 4; ++i) {
    const XY a = corners[i];
    const XY b = corners[(i + 1) % 4];
    const double rise = b.y - a.y;  // inside: (x - a.x) rise - (y - a.y) run >= 0
    const double x = a.x + (y - a.y) * (b.x - a.x) / rise;
    if (rise > 1e-9) {
      low = std::max(low, x);
    } else if (rise < -1e-9) {
      high = std::min(high, x);
    }
  }
}

/// The largest of those between any two of so many heights, along any side.
double by_trying(const SiteBox& box, int heights) {
  double best = 0.0;
  for (std::size_t side = 0; side < 4; ++side) {
    const double turn = std::atan2(box.way(side).y, box.way(side).x);
    std::array<XY, 4> turned{};
    double low_y = 1e9, high_y = -1e9;
    for (std::size_t i = 0; i < 4; ++i) {
      const XY p = box.corners()[i];
      turned[i] = {p.x * std::cos(turn) + p.y * std::sin(turn),
                   p.y * std::cos(turn) - p.x * std::sin(turn)};
      low_y = std::min(low_y, turned[i].y);
      high_y = std::max(high_y, turned[i].y);
    }
    for (int i = 0; i <= heights; ++i) {
      for (int j = i + 1; j <= heights; ++j) {
        double low = -1e9, high = 1e9;
        narrow(turned, low_y + (high_y - low_y) * i / heights, low, high);
        narrow(turned, low_y + (high_y - low_y) * j / heights, low, high);
        best = std::max(best, (high - low) * (high_y - low_y) * (j - i) / heights);
      }
    }
  }
  return best;
}

}  // namespace

TEST_CASE("the largest rectangle in a rectangle is the rectangle") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  for (int i = 0; i < 200; ++i) {
    const double angle = 180.0 * unit(random);
    const SiteSize size{100.0 + 100.0 * unit(random), 10.0 + 80.0 * unit(random)};
    const XY centre{300'000.0 + 1000.0 * unit(random), 4'500'000.0 + 1000.0 * unit(random)};
    const InnerRectangle inner = inner_rectangle(SiteBox(SiteBox(centre, angle, size).corners()));
    CHECK(inner.size.length_m == Approx(size.length_m).epsilon(1e-8));
    CHECK(inner.size.width_m == Approx(size.width_m).epsilon(1e-8));
    CHECK(std::abs(std::sin((inner.angle_deg - angle) * kDegree)) < 1e-7);
    CHECK(std::hypot(inner.centre.x - centre.x, inner.centre.y - centre.y) < 1e-6);
  }
}

TEST_CASE("in a trapezoid it is what school geometry gives") {
  // The right side leans in by 2 m a metre: (200 - 2 y) y is greatest at 50.
  const InnerRectangle inner =
      inner_rectangle(SiteBox(std::array<XY, 4>{XY{0, 0}, XY{200, 0}, XY{80, 60}, XY{0, 60}}));
  CHECK(inner.size.length_m == Approx(100.0).epsilon(1e-6));
  CHECK(inner.size.width_m == Approx(50.0).epsilon(1e-6));
  CHECK(inner.angle_deg == Approx(90.0));
  CHECK(inner.centre.x == Approx(50.0).margin(1e-4));
  CHECK(inner.centre.y == Approx(25.0).margin(1e-4));
}

TEST_CASE("it lies in the box along a side of it, and none tried is larger") {
  std::mt19937 random(8);
  for (int trial = 0; trial < 60; ++trial) {
    CAPTURE(trial);
    const SiteBox box = any_box(random);
    const InnerRectangle inner = inner_rectangle(box);
    CHECK(inner.size.length_m >= inner.size.width_m);
    CHECK(area_of(inner) >= by_trying(box, 120) * (1.0 - 1e-9));
    bool along = false;
    for (std::size_t side = 0; side < 4; ++side) {
      const XY way = box.way(side);
      const double turn = inner.angle_deg * kDegree - std::atan2(way.x, way.y);
      along = along || std::abs(std::sin(2.0 * turn)) < 1e-9;
      const SiteBox inside(inner.centre, inner.angle_deg, inner.size);
      for (const XY corner : inside.corners()) {
        CHECK(box.inside_m(side, corner) > -1e-6);
      }
    }
    CHECK(along);
  }
}
