// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/slope.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

using namespace tidelot;

namespace {

const Grid kGrid{0.0, 100.0, 10.0, 6, 5, "EPSG:32626"};

template <typename Depth>
std::vector<float> bed(const Depth& depth) {
  std::vector<float> all;
  for (int row = 0; row < kGrid.rows; ++row) {
    for (int col = 0; col < kGrid.cols; ++col) {
      all.push_back(static_cast<float>(depth(kGrid.centre(col, row))));
    }
  }
  return all;
}

double degrees(double rise) { return std::atan(rise) * 180.0 / std::numbers::pi; }

}  // namespace

TEST_CASE("a plane has its own slope everywhere inside, whichever way it falls") {
  for (const auto& [x, y] : {std::pair(0.1, 0.0), {0.0, -0.2}, {0.3, 0.4}}) {
    const auto slope = bed_slope(kGrid, bed([x = x, y = y](XY p) { return x * p.x + y * p.y; }), 1);
    for (int row = 1; row + 1 < kGrid.rows; ++row) {
      for (int col = 1; col + 1 < kGrid.cols; ++col) {
        CHECK(slope[kGrid.index(col, row)] == Approx(degrees(std::hypot(x, y))).epsilon(1e-5));
      }
    }
  }
}

TEST_CASE("Horn's weights: one deep neighbour counts by its place") {
  for (const auto& [col, row, weight] : {std::tuple(3, 2, 2.0), {2, 1, 2.0}}) {
    auto depth = bed([](XY) { return 5.0; });
    depth[kGrid.index(col, row)] += 1.0F;
    CHECK(bed_slope(kGrid, depth, 1)[kGrid.index(2, 2)] == Approx(degrees(weight / 80.0)));
  }
  auto corner = bed([](XY) { return 5.0; });
  corner[kGrid.index(3, 3)] += 1.0F;
  CHECK(bed_slope(kGrid, corner, 1)[kGrid.index(2, 2)] == Approx(degrees(std::sqrt(2.0) / 80.0)));
}

TEST_CASE("grid metres that are shorter on the ground make the bed steeper") {
  const auto slope = bed_slope(kGrid, bed([](XY p) { return 0.1 * p.x; }), 1.25);
  CHECK(slope[kGrid.index(2, 2)] == Approx(degrees(0.125)).epsilon(1e-5));
}

TEST_CASE("beside what is not known, and at the edge, the slope is not known") {
  auto depth = bed([](XY) { return 5.0; });
  depth[kGrid.index(1, 1)] = std::numeric_limits<float>::quiet_NaN();
  const auto slope = bed_slope(kGrid, depth, 1);
  CHECK(std::isnan(slope[kGrid.index(1, 1)]));
  CHECK(std::isnan(slope[kGrid.index(2, 2)]));
  CHECK(slope[kGrid.index(3, 2)] == 0.0F);
  CHECK(std::isnan(slope[kGrid.index(0, 2)]));
  CHECK(std::isnan(slope[kGrid.index(3, 4)]));
  CHECK(bed_slope(Grid{0.0, 100.0, 10.0, 1, 1, ""}, std::vector<float>{5.0F}, 1).size() == 1);
}
