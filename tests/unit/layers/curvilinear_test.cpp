// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/curvilinear.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace tidelot;

namespace {

/// A grid turned by 30 degrees and bent, with its columns and rows counted from pixel centres.
XY place(double col, double row) {
  const double x = 0.01 * col + 0.0004 * row * row / 20.0;
  const double y = -0.01 * row + 0.0004 * col * col / 20.0;
  return {-30.0 + 0.866 * x - 0.5 * y, 41.0 + 0.5 * x + 0.866 * y};
}

CurvilinearGrid bent(int cols, int rows, double shift = 0.0) {
  std::vector<double> lon;
  std::vector<double> lat;
  for (int row = 0; row < rows; ++row) {
    for (int col = 0; col < cols; ++col) {
      lon.push_back(place(col, row).x + shift);
      lat.push_back(place(col, row).y);
    }
  }
  return {cols, rows, lon, lat};
}

/// Bilinear between the four pixels around.
XY back(const CurvilinearGrid& grid, int cols, XY p) {
  const int col = std::min(static_cast<int>(p.x - 0.5), cols - 2);
  const int row = static_cast<int>(std::ceil(p.y - 0.5)) - 1;
  const double u = p.x - 0.5 - col;
  const double v = p.y - 0.5 - std::max(row, 0);
  const auto at = [&](const std::vector<double>& values) {
    const auto i = static_cast<std::size_t>(std::max(row, 0) * cols + col);
    const auto w = static_cast<std::size_t>(cols);
    return (values[i] * (1 - u) + values[i + 1] * u) * (1 - v) +
           (values[i + w] * (1 - u) + values[i + w + 1] * u) * v;
  };
  return {at(grid.lon()), at(grid.lat())};
}

}  // namespace

TEST_CASE("every place in a bent grid is found where it lies") {
  const CurvilinearGrid grid = bent(40, 30);
  std::mt19937 random(5);
  std::uniform_real_distribution<double> col(0.5, 38.5);
  std::uniform_real_distribution<double> row(0.5, 28.5);
  for (int i = 0; i < 2000; ++i) {
    const XY p = place(col(random), row(random));
    const XY found = grid.locate(p);
    REQUIRE(std::isfinite(found.x));
    const XY again = back(grid, 40, found);
    CHECK(std::abs(again.x - p.x) < 1e-11);
    CHECK(std::abs(again.y - p.y) < 1e-11);
  }
  const XY corner = grid.locate(place(3, 7));
  CHECK(corner.x == Approx(3.5).margin(1e-7));
  CHECK(corner.y == Approx(7.5).margin(1e-7));
}

TEST_CASE("places outside, and pixels without a position, are not found") {
  CHECK(std::isnan(bent(40, 30).locate({-20.0, 41.0}).x));
  CHECK(std::isnan(bent(40, 30).locate(place(-0.4, 5)).x));
  const CurvilinearGrid grid = bent(40, 30);
  std::vector<double> lon = grid.lon();
  lon[10 * 40 + 10] = std::nan("");
  const CurvilinearGrid holed(40, 30, lon, grid.lat());
  CHECK(std::isnan(holed.locate(place(10.5, 10.5)).x));
  CHECK(holed.locate(place(12.5, 12.5)).x == Approx(13.0).margin(0.01));
}

TEST_CASE("longitudes counted on round the earth are the same places") {
  const XY p = place(12.3, 8.7);
  const XY here = bent(40, 30).locate(p);
  const XY there = bent(40, 30, 360.0).locate(p);
  CHECK(there.x == Approx(here.x).margin(1e-9));
  CHECK(there.y == Approx(here.y).margin(1e-9));
}

TEST_CASE("a part of the grid finds the same places, counted from its own corner") {
  const CurvilinearGrid grid = bent(40, 30);
  const auto part = grid.cut(5, 8, 20, 15);
  const XY p = place(12.3, 12.7);
  CHECK(part->locate(p).x == Approx(grid.locate(p).x - 5).margin(1e-9));
  CHECK(part->locate(p).y == Approx(grid.locate(p).y - 8).margin(1e-9));
}

TEST_CASE("a regular grid is a curvilinear one too") {
  const CurvilinearGrid grid(3, 2, {0, 1, 2, 0, 1, 2}, {1, 1, 1, 0, 0, 0});
  CHECK(grid.locate({1.25, 0.75}).x == Approx(1.75));
  CHECK(grid.locate({1.25, 0.75}).y == Approx(0.75));
  CHECK(grid.locate({2.0, 0.0}).x == Approx(2.5));
}
