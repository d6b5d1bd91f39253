// SPDX-License-Identifier: Apache-2.0
#include "sites/footprint.hpp"

#include <boost/geometry.hpp>
#include <catch2/catch.hpp>
#include <random>
#include <set>

#include "sites/site_box.hpp"

using namespace tidelot;
namespace bg = boost::geometry;

namespace {

using Cells = std::set<std::pair<int, int>>;
using Point = bg::model::d2::point_xy<double>;

Cells cells_of(const std::vector<RowRun>& runs) {
  Cells cells;
  for (const RowRun& run : runs) {
    for (int col = run.first; col <= run.last; ++col) {
      cells.emplace(run.row, col);
    }
  }
  return cells;
}

bg::model::polygon<Point> ring_of(const SiteBox& box) {
  bg::model::polygon<Point> ring;
  for (const XY corner : box.corners()) {
    bg::append(ring.outer(), Point(corner.x, corner.y));
  }
  bg::correct(ring);
  return ring;
}

}  // namespace

TEST_CASE("edges that fall on cell edges touch no cell beyond") {
  const Footprint footprint = footprint_of({30, 10}, 90.0, 10.0);
  CHECK(cells_of(footprint.touched) == Cells{{0, -1}, {0, 0}, {0, 1}});
  CHECK(footprint.covered_cells == 3);
}

TEST_CASE("a rectangle smaller than a cell still covers its own cell") {
  const Footprint footprint = footprint_of({2, 1}, 45.0, 10.0);
  CHECK(cells_of(footprint.touched) == Cells{{0, 0}});
  CHECK(cells_of(footprint.covered) == Cells{{0, 0}});
}

TEST_CASE("centres on the edge are not inside") {
  const Footprint footprint = footprint_of({40, 20}, 0.0, 10.0);
  CHECK(footprint.covered_cells == 3);
  CHECK(cells_of(footprint.touched).size() == 15);
}

TEST_CASE("row 0 is the cell of the centre, rows grow to the south") {
  const Footprint footprint = footprint_of({90, 8}, 45.0, 10.0);
  CHECK(cells_of(footprint.covered).count({-2, 2}) == 1);  // north-east
  CHECK(cells_of(footprint.covered).count({2, 2}) == 0);
}

TEST_CASE("touched and covered cells are those that another library finds") {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> side(3, 140);
  for (int trial = 0; trial < 240; ++trial) {
    const SiteSize size{side(random), side(random)};
    const double angle = 15.0 * (trial % 12);
    const Footprint footprint = footprint_of(size, angle, 10.0);
    const auto ring = ring_of(SiteBox({0, 0}, angle, size));
    Cells touched;
    Cells covered;
    for (int row = -15; row <= 15; ++row) {
      for (int col = -15; col <= 15; ++col) {
        const double x = 10.0 * col;
        const double y = -10.0 * row;
        const bg::model::box<Point> cell(Point(x - 5 + 1e-5, y - 5 + 1e-5),
                                         Point(x + 5 - 1e-5, y + 5 - 1e-5));
        if (bg::intersects(cell, ring)) {
          touched.emplace(row, col);
        }
        if (bg::within(Point(x, y), ring)) {
          covered.emplace(row, col);
        }
      }
    }
    CAPTURE(trial, size.length_m, size.width_m, angle);
    REQUIRE(cells_of(footprint.touched) == touched);
    REQUIRE(cells_of(footprint.covered) == covered);
    REQUIRE(footprint.covered_cells == covered.size());
  }
}
