// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/fetch.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <vector>

using namespace tidelot;

namespace {

constexpr double kRadian = std::numbers::pi / 180.0;
constexpr float kNan = std::numeric_limits<float>::quiet_NaN();

Grid square(int side, double cell_m) { return {0.0, side * cell_m, cell_m, side, side, "local"}; }

struct Swept {
  std::vector<float> fetch, depth;
};

Swept sweep(const Grid& grid, const std::vector<float>& depth, double from, double beyond = 0.0) {
  Swept out{std::vector<float>(depth.size()), std::vector<float>(depth.size())};
  FetchSweep(grid, depth)(from, beyond, out.fetch, out.depth);
  return out;
}

/// Distance from a point against the wind to the edge of a circle about the origin.
double to_circle(XY p, double radius, double from_deg) {
  const double ux = std::sin(from_deg * kRadian);
  const double uy = std::cos(from_deg * kRadian);
  const double along = p.x * ux + p.y * uy;
  const double square_distance = p.x * p.x + p.y * p.y - radius * radius;
  return -along + std::sqrt(along * along - square_distance);
}

}  // namespace

TEST_CASE("a round bay: within the stated bound of the chord, for every direction") {
  const int side = 201;
  const double cell = 10.0;
  const double radius = 900.0;
  const Grid grid = square(side, cell);
  std::vector<float> depth(grid.size());
  const XY middle{side * cell / 2, side * cell / 2};
  const auto from_middle = [&](int col, int row) {
    const XY c = grid.centre(col, row);
    return XY{c.x - middle.x, c.y - middle.y};
  };
  for (int row = 0; row < side; ++row) {
    for (int col = 0; col < side; ++col) {
      const XY p = from_middle(col, row);
      depth[grid.index(col, row)] = std::hypot(p.x, p.y) < radius ? 5.0F : -1.0F;
    }
  }
  for (double from = 0.0; from < 360.0; from += 11.25) {
    CAPTURE(from);
    const Swept swept = sweep(grid, depth, from);
    const double ux = std::sin(from * kRadian);
    const double uy = std::cos(from * kRadian);
    for (int row = 0; row < side; row += 7) {
      for (int col = 0; col < side; col += 7) {
        const XY p = from_middle(col, row);
        if (std::hypot(p.x, p.y) > radius - 30.0) {
          continue;
        }
        // chords of the rays one cell to either side, and the middle one, with one cell to spare
        double low = 1e9;
        double high = 0.0;
        for (double aside = -1.0; aside <= 1.0; aside += 0.25) {
          const XY q{p.x + aside * cell * uy, p.y - aside * cell * ux};
          const double chord = to_circle(q, radius, from);
          low = std::min(low, chord);
          high = std::max(high, chord);
        }
        const double found = swept.fetch[grid.index(col, row)];
        REQUIRE(found >= low - 1.42 * cell);
        REQUIRE(found <= high + 1.42 * cell);
      }
    }
  }
}

TEST_CASE("along rows, columns and diagonals the count is exact") {
  const Grid grid = square(9, 100.0);
  std::vector<float> depth(81, 3.0F);
  depth[grid.index(4, 0)] = -1.0F;  // land in the north, middle column
  depth[grid.index(0, 4)] = -1.0F;  // and in the west, middle row
  depth[grid.index(0, 0)] = -1.0F;
  const Swept north = sweep(grid, depth, 0.0, 1000.0);
  CHECK(north.fetch[grid.index(4, 0)] == 0.0F);
  CHECK(north.fetch[grid.index(4, 1)] == Approx(50.0));
  CHECK(north.fetch[grid.index(4, 8)] == Approx(750.0));
  CHECK(north.fetch[grid.index(5, 8)] == Approx(1850.0));  // open to the edge, and 1 km beyond
  const Swept west = sweep(grid, depth, 270.0, 1000.0);
  CHECK(west.fetch[grid.index(8, 4)] == Approx(750.0));
  CHECK(west.fetch[grid.index(8, 5)] == Approx(1850.0));
  const Swept northwest = sweep(grid, depth, 315.0);
  CHECK(northwest.fetch[grid.index(8, 8)] == Approx(7.5 * 100.0 * std::sqrt(2.0)));
  const Swept south = sweep(grid, depth, 180.0, 0.0);
  CHECK(south.fetch[grid.index(4, 1)] == Approx(750.0));
  CHECK(south.fetch[grid.index(4, 8)] == Approx(50.0));
}

TEST_CASE("the mean depth is that of the water crossed since the last land") {
  const Grid grid = square(5, 10.0);
  std::vector<float> depth(25, 1.0F);
  for (int row = 0; row < 5; ++row) {
    depth[grid.index(2, row)] = static_cast<float>(row);  // 0 is land
  }
  const Swept north = sweep(grid, depth, 0.0);
  CHECK(std::isnan(north.depth[grid.index(2, 0)]));
  CHECK(north.depth[grid.index(2, 1)] == Approx(1.0));
  CHECK(north.depth[grid.index(2, 4)] == Approx(2.5));
  depth[grid.index(2, 3)] = kNan;  // water of no known depth
  const Swept gap = sweep(grid, depth, 0.0);
  CHECK(gap.depth[grid.index(2, 4)] == Approx((1.0 + 2.0 + 4.0) / 3.0));
  CHECK(gap.fetch[grid.index(2, 4)] == Approx(35.0));
}

TEST_CASE("every water cell gets a fetch and land none, whatever the shape of the grid") {
  std::mt19937 random(5);
  for (const auto& [cols, rows] : {std::pair{1, 1}, std::pair{1, 40}, std::pair{40, 1},
                                   std::pair{33, 70}, std::pair{70, 33}}) {
    const Grid grid{0.0, 1000.0, 10.0, cols, rows, "local"};
    std::vector<float> depth(grid.size());
    for (float& d : depth) {
      d = random() % 4 == 0 ? -1.0F : 2.0F;
    }
    for (double from = 0.0; from < 360.0; from += 22.5) {
      const Swept swept = sweep(grid, depth, from, 500.0);
      for (std::size_t i = 0; i < depth.size(); ++i) {
        REQUIRE((swept.fetch[i] > 0.0F) == (depth[i] > 0.0F));
      }
    }
  }
}
