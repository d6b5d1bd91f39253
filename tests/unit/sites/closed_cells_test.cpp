// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/closed_cells.hpp"

#include <catch2/catch.hpp>
#include <random>
#include <vector>

using namespace tidelot;

TEST_CASE("closed cells with changes are those of a copy in which they were made") {
  constexpr std::size_t kCells = 5000;
  std::mt19937 random(3);
  std::vector<std::uint32_t> planned(kCells);
  for (std::uint32_t& code : planned) {
    code = random() % 4;
  }
  std::vector<std::uint32_t> copy = planned;
  ClosedChanges changes(kCells);
  for (std::size_t i = 0; i < kCells; ++i) {
    // some stretches without a change, some with one in each cell, first and last cell among them
    if (i == 0 || i == kCells - 1 || (i / 500 % 2 == 0 && random() % 3 == 0) || i / 64 == 20) {
      copy[i] = 100 + random() % 4;
      changes.add(i, copy[i]);
    }
  }
  const ClosedCells closed(planned, changes);
  const ClosedCells plain(planned);
  REQUIRE(closed.size() == kCells);
  for (std::size_t i = 0; i < kCells; ++i) {
    REQUIRE(closed[i] == copy[i]);
    REQUIRE(plain[i] == planned[i]);
  }
}
