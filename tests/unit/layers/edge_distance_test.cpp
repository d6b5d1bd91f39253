// SPDX-License-Identifier: Apache-2.0
#include "layers/edge_distance.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

using namespace tidelot;

namespace {

/// By looking at every pair of cells.
std::vector<double> slowly(const std::vector<std::uint8_t>& covered, int cols, int rows) {
  std::vector<double> out;
  for (int row = 0; row < rows; ++row) {
    for (int col = 0; col < cols; ++col) {
      double nearest = std::numeric_limits<double>::infinity();
      for (int r = 0; r < rows; ++r) {
        for (int c = 0; c < cols; ++c) {
          if (covered[static_cast<std::size_t>(r * cols + c)] == 0) {
            nearest = std::min(nearest, std::hypot(double{1} * (r - row), double{1} * (c - col)));
          }
        }
      }
      out.push_back(nearest);
    }
  }
  return out;
}

}  // namespace

TEST_CASE("the distance to the edge is that of looking at every pair of cells") {
  std::mt19937 random(3);
  for (const double share : {0.02, 0.3, 0.9}) {
    for (const auto& [cols, rows] : {std::pair{1, 1}, {17, 1}, {1, 23}, {31, 19}}) {
      std::bernoulli_distribution bare(share);
      std::vector<std::uint8_t> covered(static_cast<std::size_t>(cols * rows));
      for (auto& cell : covered) {
        cell = bare(random) ? 0 : 1;
      }
      const auto fast = edge_distance(covered, cols, rows);
      const auto slow = slowly(covered, cols, rows);
      for (std::size_t i = 0; i < fast.size(); ++i) {
        CHECK((fast[i] == slow[i] || std::abs(fast[i] - slow[i]) < 1e-12));
      }
    }
  }
}

TEST_CASE("without an edge the distance is infinite") {
  for (const double d : edge_distance(std::vector<std::uint8_t>(12, 1), 4, 3)) {
    CHECK(std::isinf(d));
  }
}
