// SPDX-License-Identifier: Apache-2.0
#include "sites/coverage.hpp"

#include <boost/geometry.hpp>
#include <catch2/catch.hpp>
#include <map>
#include <random>

#include "sites/site_box.hpp"

using namespace tidelot;
namespace bg = boost::geometry;

namespace {

using Point = bg::model::d2::point_xy<double>;
using Ring = bg::model::polygon<Point>;

const Grid kGrid{1000.0, 5000.0, 10.0, 30, 30, "EPSG:32626"};

std::map<std::pair<int, int>, double> shares_of(const std::array<XY, 4>& corners) {
  std::map<std::pair<int, int>, double> shares;
  for_each_covered(in_cells(corners, kGrid), [&](int row, int first, int last, double share) {
    for (int col = first; col <= last; ++col) {
      const bool added = shares.emplace(std::pair(col, row), share).second;
      CHECK(added);
    }
  });
  return shares;
}

/// The area that a cell and a shape have in common, by another library, in cells.
double common(const Ring& ring, int col, int row) {
  const XY c = kGrid.centre(col, row);
  Ring cell;
  bg::convert(bg::model::box<Point>(Point(c.x - 5.0, c.y - 5.0), Point(c.x + 5.0, c.y + 5.0)),
              cell);
  std::vector<Ring> parts;
  bg::intersection(cell, ring, parts);
  double area = 0.0;
  for (const Ring& part : parts) {
    area += std::abs(bg::area(part));
  }
  return area / 100.0;
}

void compare(const std::array<XY, 4>& corners) {
  Ring ring;
  for (const XY p : corners) {
    bg::append(ring.outer(), Point(p.x, p.y));
  }
  bg::correct(ring);
  auto shares = shares_of(corners);
  double sum = 0.0;
  for (int row = -10; row < 41; ++row) {
    for (int col = -10; col < 41; ++col) {
      const double share = shares[{col, row}];
      REQUIRE(share == Approx(common(ring, col, row)).margin(1e-6));
      sum += share;
    }
  }
  CHECK(sum == Approx(std::abs(bg::area(ring)) / 100.0));
}

}  // namespace

TEST_CASE("shares of cells under a rectangle are those of an overlay") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  for (int i = 0; i < 60; ++i) {
    const XY centre{1000.0 + 300.0 * unit(random), 4700.0 + 300.0 * unit(random)};
    const SiteSize size{5.0 + 150.0 * unit(random), 1.0 + 60.0 * unit(random)};
    compare(SiteBox(centre, 180.0 * unit(random), size).corners());
  }
}

TEST_CASE("shares of cells at right angles, on edges of cells and off them") {
  for (const double angle : {0.0, 90.0}) {
    for (const XY centre : {XY{1150.0, 4850.0}, XY{1155.0, 4855.0}, XY{1153.7, 4851.2}}) {
      compare(SiteBox(centre, angle, {100.0, 40.0}).corners());
      compare(SiteBox(centre, angle, {3.0, 2.0}).corners());
    }
  }
}

TEST_CASE("shares of cells under a crooked box") {
  compare({XY{1040.0, 4950.0}, {1160.0, 4941.0}, {1172.0, 4880.0}, {1033.0, 4903.0}});
}
