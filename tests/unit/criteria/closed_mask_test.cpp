// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/closed_mask.hpp"

#include <boost/geometry.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

using namespace tidelot;
namespace bg = boost::geometry;

namespace {

using BgPoint = bg::model::d2::point_xy<double>;
using BgBox = bg::model::box<BgPoint>;
using BgPolygon = bg::model::polygon<BgPoint>;
using BgLine = bg::model::linestring<BgPoint>;

const Grid kGrid{1000.0, 2000.0, 10.0, 20, 16, "EPSG:32626"};

std::vector<std::uint32_t> marked(const Grid& grid, const Shape& shape, double setback,
                                  double scale = 1.0, int bit = 8) {
  std::vector<std::uint32_t> mask(grid.size(), 0);
  std::vector<Feature> features{{shape, ""}};
  features[0].setback_m = setback;
  mark_closed(grid, features, Standing::closed, scale, bit, mask);
  return mask;
}

std::size_t count(const std::vector<std::uint32_t>& mask) {
  std::size_t n = 0;
  for (const std::uint32_t value : mask) {
    n += value != 0 ? 1 : 0;
  }
  return n;
}

Path box(double west, double south, double east, double north) {
  return {{west, south}, {east, south}, {east, north}, {west, north}, {west, south}};
}

Shape polygon_of(Path outer, std::vector<Path> holes = {}) { return {{{outer, holes}}, {}, {}}; }

/// A star-shaped ring about a middle: simple, but with deep notches.
Path star(std::mt19937& random, XY middle, double low, double high) {
  std::uniform_real_distribution<double> radius(low, high);
  const int corners = 3 + static_cast<int>(random() % 12);
  Path ring;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2.0 * 3.14159265358979 * i / corners;
    const double r = radius(random);
    ring.push_back({middle.x + r * std::cos(angle), middle.y + r * std::sin(angle)});
  }
  ring.push_back(ring.front());
  return ring;
}

template <typename Ring>
void append(const Path& path, Ring& ring) {
  for (const XY p : path) {
    bg::append(ring, BgPoint(p.x, p.y));
  }
}

BgPolygon boost_polygon(const Polygon& polygon) {
  BgPolygon result;
  append(polygon.outer, result.outer());
  for (const Path& hole : polygon.holes) {
    result.inners().emplace_back();
    append(hole, result.inners().back());
  }
  bg::correct(result);
  return result;
}

/// The rule as the design words it, cell by cell, by another library.
template <typename Geometry>
std::vector<std::uint32_t> by_brute_force(const Grid& grid, const Geometry& geometry,
                                          double reach) {
  std::vector<std::uint32_t> mask(grid.size(), 0);
  for (int row = 0; row < grid.rows; ++row) {
    for (int col = 0; col < grid.cols; ++col) {
      const XY c = grid.centre(col, row);
      const BgBox cell(BgPoint(c.x - grid.cell_m / 2, c.y - grid.cell_m / 2),
                       BgPoint(c.x + grid.cell_m / 2, c.y + grid.cell_m / 2));
      const bool near = bg::distance(BgPoint(c.x, c.y), geometry) <= reach;
      mask[grid.index(col, row)] = near || bg::intersects(cell, geometry) ? 1U << 8U : 0U;
    }
  }
  return mask;
}

}  // namespace

TEST_CASE("a polygon wholly inside one cell closes that cell, and only that") {
  const auto mask = marked(kGrid, polygon_of(box(1001, 1991, 1002, 1992)), 0.0);
  CHECK(mask[0] == 1U << 8U);
  CHECK(count(mask) == 1);
}

TEST_CASE("a polygon that covers the grid without an edge in it closes all of it") {
  CHECK(count(marked(kGrid, polygon_of(box(0, 0, 5000, 5000)), 0.0)) == kGrid.size());
}

TEST_CASE("a hole stays open but for the setback from its rim") {
  const Shape ring = polygon_of(box(0, 0, 5000, 5000), {box(1022, 1862, 1178, 1978)});
  const auto no_setback = marked(kGrid, ring, 0.0);
  CHECK(no_setback[kGrid.index(3, 3)] == 0);
  CHECK(no_setback[kGrid.index(2, 3)] != 0);
  const auto far = marked(kGrid, ring, 20.0);
  CHECK(far[kGrid.index(3, 3)] != 0);
  CHECK(far[kGrid.index(4, 4)] == 0);
}

TEST_CASE("the centre exactly at the setback is closed") {
  const Shape point{{}, {}, {{1105, 1935}}};
  const auto mask = marked(kGrid, point, 20.0);
  CHECK(mask[kGrid.index(12, 6)] != 0);
  CHECK(mask[kGrid.index(13, 6)] == 0);
  CHECK(count(mask) == 13);
}

TEST_CASE("the setback is in true metres: the scale stretches it on the grid") {
  const Shape point{{}, {}, {{1105, 1935}}};
  CHECK(marked(kGrid, point, 20.0, 0.99)[kGrid.index(12, 6)] == 0);
  CHECK(marked(kGrid, point, 10.0, 2.0) == marked(kGrid, point, 20.0, 1.0));
}

TEST_CASE("shapes outside the grid close what lies within reach, and nothing else") {
  const Shape east{{}, {{{1212, 1000}, {1212, 3000}}}, {}};
  const auto mask = marked(kGrid, east, 30.0);
  CHECK(mask[kGrid.index(19, 5)] != 0);
  CHECK(mask[kGrid.index(18, 5)] != 0);
  CHECK(mask[kGrid.index(17, 5)] == 0);
  CHECK(count(marked(kGrid, Shape{{}, {{{1e9, 1e9}, {2e9, 1e9}}}, {}}, 30.0)) == 0);
}

TEST_CASE("a line along cell edges touches the cells on both sides") {
  const auto mask = marked(kGrid, Shape{{}, {{{1012, 1950}, {1018, 1950}}}, {}}, 0.0);
  CHECK(mask[kGrid.index(1, 4)] != 0);
  CHECK(mask[kGrid.index(1, 5)] != 0);
  CHECK(count(mask) == 2);
}

TEST_CASE("a zone narrower than a cell closes every cell it runs through") {
  const auto mask = marked(kGrid, polygon_of(box(1011, 1840.5, 1012, 1999.5)), 0.0);
  for (int row = 0; row < kGrid.rows; ++row) {
    CHECK(mask[kGrid.index(1, row)] != 0);
  }
  CHECK(count(mask) == 16);
}

TEST_CASE("bits of other rules are kept and overlapping shapes are no trouble") {
  std::vector<std::uint32_t> mask(kGrid.size(), 1U << 9U);
  const Shape twice = polygon_of(box(1021, 1921, 1079, 1979));
  std::vector<Feature> features{{twice, ""}, {twice, ""}};
  features[0].setback_m = features[1].setback_m = 15.0;
  mark_closed(kGrid, features, Standing::closed, 1.0, 8, mask);
  CHECK(mask[kGrid.index(3, 3)] == ((1U << 8U) | (1U << 9U)));
  CHECK(mask[kGrid.index(19, 15)] == 1U << 9U);
}

TEST_CASE("polygons with holes close exactly the cells that brute force closes") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> x(980, 1220);
  std::uniform_real_distribution<double> y(1820, 2020);
  std::uniform_real_distribution<double> setback(0, 60);
  for (int trial = 0; trial < 400; ++trial) {
    const XY middle{x(random), y(random)};
    Polygon polygon{star(random, middle, 20, 120), {}};
    if (trial % 2 == 0) {
      polygon.holes.push_back(star(random, middle, 2, 9));
    }
    const double reach = trial % 5 == 0 ? 0.0 : setback(random);
    CAPTURE(trial, reach);
    REQUIRE(marked(kGrid, Shape{{polygon}, {}, {}}, reach) ==
            by_brute_force(kGrid, boost_polygon(polygon), reach));
  }
}

TEST_CASE("lines and points close exactly the cells that brute force closes") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> x(950, 1250);
  std::uniform_real_distribution<double> y(1800, 2040);
  std::uniform_real_distribution<double> setback(0, 60);
  for (int trial = 0; trial < 300; ++trial) {
    Path line;
    for (int i = 0; i < 4; ++i) {
      line.push_back({x(random), y(random)});
    }
    BgLine boost_line;
    append(line, boost_line);
    const double reach = trial % 5 == 0 ? 0.0 : setback(random);
    CAPTURE(trial, reach);
    REQUIRE(marked(kGrid, Shape{{}, {line}, {}}, reach) ==
            by_brute_force(kGrid, boost_line, reach));
    REQUIRE(marked(kGrid, Shape{{}, {}, {line[0]}}, reach) ==
            by_brute_force(kGrid, BgPoint(line[0].x, line[0].y), reach));
  }
}

TEST_CASE("more runs than are kept at once give the same cells") {
  const Grid big{0.0, 4000.0, 1.0, 50, 4000, "EPSG:32626"};
  Shape comb;
  for (int i = 0; i < 400; ++i) {
    comb.lines.push_back({{10.25, 0.5}, {10.75, 3999.5}});
  }
  const auto mask = marked(big, comb, 3.0);
  CHECK(mask == marked(big, Shape{{}, {comb.lines[0]}, {}}, 3.0));
  CHECK(count(mask) >= 4000U * 6U);
}

TEST_CASE("each shape keeps its own setback, and only shapes of the standing count") {
  const XY a = kGrid.centre(4, 8);
  const XY b = kGrid.centre(15, 8);
  std::vector<Feature> features{{Shape{{}, {}, {a}}, "near"}, {Shape{{}, {}, {b}}, "far"}};
  features[0].setback_m = 10.5;
  features[1].setback_m = 20.5;
  const auto marked_as = [&](Standing standing) {
    std::vector<std::uint32_t> mask(kGrid.size(), 0);
    mark_closed(kGrid, features, standing, 1.0, 8, mask);
    return mask;
  };
  const auto both = marked_as(Standing::closed);
  CHECK(both[kGrid.index(5, 8)] != 0);
  CHECK(both[kGrid.index(6, 8)] == 0);
  CHECK(both[kGrid.index(13, 8)] != 0);
  CHECK(both[kGrid.index(12, 8)] == 0);
  features[1].standing = Standing::unknown;
  CHECK(count(marked_as(Standing::closed)) == 5);
  CHECK(count(marked_as(Standing::unknown)) == 13);
}
