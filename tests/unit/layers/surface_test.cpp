// SPDX-License-Identifier: Apache-2.0
#include "layers/surface.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

using namespace tidelot;

namespace {

Grid grid_of(int cols, int rows, double cell = 1.0) {
  Grid grid;
  grid.cols = cols;
  grid.rows = rows;
  grid.cell_m = cell;
  grid.west = 0.0;
  grid.north = rows * cell;
  return grid;
}

std::vector<float> sampled(const Surface& surface, const Grid& grid, const Tile& tile) {
  std::vector<float> values(tile.size());
  surface.sample(grid, tile, values);
  return values;
}

std::vector<float> whole(const Surface& surface, const Grid& grid) {
  return sampled(surface, grid, {0, 0, grid.cols, grid.rows});
}

}  // namespace

TEST_CASE("a triangle is linear inside and gives nothing outside") {
  const Grid grid = grid_of(10, 10);
  const auto surface = triangle_surface(grid, {{0, 0}, {10, 0}, {0, 10}}, {1, 11, 21}, {{0, 1, 2}});
  for (int row = 0; row < grid.rows; ++row) {
    for (int col = 0; col < grid.cols; ++col) {
      const XY p = grid.centre(col, row);
      const float value = sampled(*surface, grid, {col, row, 1, 1})[0];
      if (p.x + p.y <= 10.0) {
        CHECK(value == Approx(1 + p.x + 2 * p.y).epsilon(1e-7));
      } else {
        CHECK(std::isnan(value));
      }
    }
  }
}

TEST_CASE("triangles that share edges leave no centre out, wherever their corners lie") {
  const Grid grid = grid_of(200, 200);
  std::mt19937 random(5);
  std::uniform_real_distribution<double> any(20.0, 180.0);
  for (int turn = 0; turn < 20; ++turn) {
    // A square fanned out from a place inside it, and the centre of a cell on purpose now and then.
    const XY middle =
        turn % 2 == 0 ? XY{any(random), any(random)} : grid.centre(20 + 8 * turn, 180 - 7 * turn);
    const std::vector<XY> places{{-1, -1}, {201, -1}, {201, 201}, {-1, 201}, middle};
    const std::vector<std::array<std::uint32_t, 3>> fan{{0, 1, 4}, {1, 2, 4}, {3, 2, 4}, {3, 0, 4}};
    const auto values = whole(*triangle_surface(grid, places, {3, 3, 3, 3, 3}, fan), grid);
    CHECK(std::none_of(values.begin(), values.end(), [](float v) { return std::isnan(v); }));
    CHECK(
        std::all_of(values.begin(), values.end(), [](float v) { return std::abs(v - 3) < 1e-6; }));
  }
}

TEST_CASE("what a cell gets does not depend on its tile") {
  const Grid grid = grid_of(150, 130, 7.0);
  std::mt19937 random(8);
  std::uniform_real_distribution<double> any(-100.0, 1150.0);
  std::vector<XY> places;
  std::vector<double> values;
  std::vector<std::array<std::uint32_t, 3>> triangles;
  for (std::uint32_t i = 0; i < 300; ++i) {
    places.push_back({any(random), any(random)});
    values.push_back(any(random));
    if (i > 1) {
      triangles.push_back({i, i - 1, i - 2});  // over each other: the first decides
    }
  }
  const auto surface = triangle_surface(grid, places, values, triangles);
  const auto all = whole(*surface, grid);
  for (const int side : {1, 13, 64, 100}) {
    for (const Tile& tile : tiles_of(grid, side)) {
      const auto part = sampled(*surface, grid, tile);
      for (int row = 0; row < tile.rows; ++row) {
        for (int col = 0; col < tile.cols; ++col) {
          const float a = part[static_cast<std::size_t>(row * tile.cols + col)];
          const float b = all[grid.index(tile.col0 + col, tile.row0 + row)];
          REQUIRE((a == b || (std::isnan(a) && std::isnan(b))));
        }
      }
    }
  }
}

TEST_CASE("a triangle with an unknown corner, or none at all in area, gives nothing") {
  const Grid grid = grid_of(4, 4);
  constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
  const std::vector<XY> places{{0, 0}, {9, 0}, {0, 9}, {kNan, kNan}, {4, 4}, {8, 8}};
  const auto nothing = [&](const std::vector<double>& values,
                           const std::vector<std::array<std::uint32_t, 3>>& triangles) {
    const auto cells = whole(*triangle_surface(grid, places, values, triangles), grid);
    return std::all_of(cells.begin(), cells.end(), [](float v) { return std::isnan(v); });
  };
  CHECK(nothing({1, 1, kNan, 1, 1, 1}, {{0, 1, 2}}));
  CHECK(nothing({1, 1, 1, 1, 1, 1}, {{0, 1, 3}}));
  CHECK(nothing({1, 1, 1, 1, 1, 1}, {{0, 4, 5}}));
  CHECK(nothing({1, 1, 1, 1, 1, 1}, {}));
  CHECK_FALSE(nothing({1, 1, 1, 1, 1, 1}, {{0, 1, 2}}));
}

TEST_CASE("areas give their value, the lowest where they lie over each other") {
  const Grid grid = grid_of(10, 10);
  const auto box = [](double west, double south, double east, double north) {
    return Polygon{{{west, south}, {east, south}, {east, north}, {west, north}, {west, south}}, {}};
  };
  Shape ring;
  ring.polygons.push_back(box(0, 0, 8, 8));
  ring.polygons[0].holes.push_back(box(2, 2, 4, 4).outer);
  Shape over;
  over.polygons.push_back(box(6, 6, 10, 10));
  const auto surface = area_surface(grid, {ring, over}, {5.0, -1.0});
  const auto at = [&](int col, int row_from_south) {
    return sampled(*surface, grid, {col, 9 - row_from_south, 1, 1})[0];
  };
  CHECK(at(1, 1) == 5.0F);
  CHECK(std::isnan(at(3, 3)));
  CHECK(at(7, 7) == -1.0F);
  CHECK(at(9, 9) == -1.0F);
  CHECK(std::isnan(at(9, 1)));
}
