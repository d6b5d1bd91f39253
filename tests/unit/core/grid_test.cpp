// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/grid.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "tidelot/core/error.hpp"

using namespace tidelot;

namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInf = std::numeric_limits<double>::infinity();
const Grid kGrid{1000.0, 2000.0, 10.0, 4, 3, "EPSG:32626"};

Grid cover(XY lower_left, XY upper_right, double cell_m, std::size_t most = 1'000'000) {
  return covering_grid(lower_left, upper_right, cell_m, "EPSG:32626", most);
}

}  // namespace

TEST_CASE("A cell owns its west and its north edge") {
  CHECK(kGrid.cell_of({1000, 2000}) == Cell{0, 0});
  CHECK(kGrid.cell_of({1009.999, 1990.001}) == Cell{0, 0});
  CHECK(kGrid.cell_of({1010, 1990}) == Cell{1, 1});
  CHECK(kGrid.cell_of({1039.999, 1970.001}) == Cell{3, 2});
}

TEST_CASE("The east and the south edge lie outside the grid") {
  CHECK_FALSE(kGrid.holds(kGrid.cell_of({1040, 1985})));
  CHECK_FALSE(kGrid.holds(kGrid.cell_of({1005, 1970})));
  CHECK_FALSE(kGrid.holds(kGrid.cell_of({999.999, 1985})));
  CHECK_FALSE(kGrid.holds(kGrid.cell_of({1005, 2000.001})));
}

TEST_CASE("A point too far for a column number, or nowhere, lies outside") {
  for (const double x : {1e300, -1e300, kInf, -kInf, kNan, 3e10, -3e10}) {
    INFO(x);
    CHECK_FALSE(kGrid.holds(kGrid.cell_of({x, 1985})));
    CHECK_FALSE(kGrid.holds(kGrid.cell_of({1005, x})));
  }
}

TEST_CASE("Every cell's centre lies in it") {
  for (int row = 0; row < kGrid.rows; ++row) {
    for (int col = 0; col < kGrid.cols; ++col) {
      CHECK(kGrid.cell_of(kGrid.centre(col, row)) == Cell{col, row});
    }
  }
  CHECK(kGrid.centre(0, 0) == XY{1005, 1995});
  CHECK(kGrid.east() == 1040.0);
  CHECK(kGrid.south() == 1970.0);
  CHECK(kGrid.size() == 12);
  CHECK(kGrid.index(3, 2) == 11);
}

TEST_CASE("Counts of cells do not overflow an int") {
  const Grid wide{0, 0, 1, 50000, 50000, ""};
  CHECK(wide.size() == 2'500'000'000U);
  CHECK(wide.index(49999, 49999) == 2'499'999'999U);
  CHECK(Tile{0, 0, 50000, 50000}.size() == 2'500'000'000U);
}

TEST_CASE("Tiles cover every cell once, row by row") {
  for (const int side : {1, 2, 3, 4, 5, 100}) {
    std::vector<int> covered(kGrid.size(), 0);
    int last_row = -1;
    int last_col = -1;
    for (const Tile& tile : tiles_of(kGrid, side)) {
      CHECK((tile.row0 > last_row || (tile.row0 == last_row && tile.col0 > last_col)));
      last_row = tile.row0;
      last_col = tile.col0;
      CHECK(tile.cols <= side);
      CHECK(tile.rows <= side);
      for (int row = tile.row0; row < tile.row0 + tile.rows; ++row) {
        for (int col = tile.col0; col < tile.col0 + tile.cols; ++col) {
          ++covered[kGrid.index(col, row)];
        }
      }
    }
    CHECK(covered == std::vector<int>(kGrid.size(), 1));
  }
  CHECK(tiles_of(Grid{}, 8).empty());
}

TEST_CASE("The grid grows outward to whole multiples of the cell") {
  const Grid grid = cover({1003, -7}, {1031, 25}, 10);
  CHECK(grid.west == 1000.0);
  CHECK(grid.east() == 1040.0);
  CHECK(grid.south() == -10.0);
  CHECK(grid.north == 30.0);
  CHECK(grid.cols == 4);
  CHECK(grid.rows == 4);
  CHECK(grid.crs == "EPSG:32626");
}

TEST_CASE("A box on whole multiples is kept as it is, a point gets one cell") {
  const Grid grid = cover({1000, 0}, {1040, 30}, 10);
  CHECK(grid.cols == 4);
  CHECK(grid.rows == 3);
  const Grid point = cover({1000, 0}, {1000, 0}, 10);
  CHECK(point.cols == 1);
  CHECK(point.rows == 1);
}

TEST_CASE("Two boxes that share ground share cell edges") {
  const Grid one = cover({103.3, 57.1}, {504.0, 300.0}, 2.5);
  const Grid other = cover({250.9, 11.0}, {800.0, 250.0}, 2.5);
  CHECK(std::fmod(other.west - one.west, 2.5) == 0.0);
  CHECK(std::fmod(other.north - one.north, 2.5) == 0.0);
}

TEST_CASE("Too many cells are the plan's fault, naming cell_m") {
  CHECK_NOTHROW(cover({0, 0}, {1000, 1000}, 10, 10000));
  try {
    static_cast<void>(cover({0, 0}, {1000, 1010}, 10, 10000));
    FAIL("not refused");
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::plan);
    CHECK_THAT(error.what(), Catch::Contains("cell_m") && Catch::Contains("100 x 101"));
  }
}

TEST_CASE("A grid of more columns than an int holds is refused whatever may be held") {
  CHECK_THROWS_AS(cover({0, 0}, {1e10, 1}, 1, std::numeric_limits<std::size_t>::max()), Error);
  CHECK_THROWS_AS(cover({0, 0}, {1, 1e10}, 1, std::numeric_limits<std::size_t>::max()), Error);
}

TEST_CASE("A box that could not be projected is refused, never a grid of one cell") {
  CHECK_THROWS_AS(cover({kNan, 0}, {10, 10}, 1), Error);
  CHECK_THROWS_AS(cover({0, 0}, {10, kNan}, 1), Error);
  CHECK_THROWS_AS(cover({-kInf, 0}, {10, 10}, 1), Error);
  CHECK_THROWS_AS(cover({kInf, 0}, {kInf, 10}, 1), Error);
}

TEST_CASE("A box turned inside out is refused") {
  CHECK_THROWS_AS(cover({100, 0}, {0, 100}, 10), Error);
  CHECK_THROWS_AS(cover({0, 100}, {100, 0}, 10), Error);
}
