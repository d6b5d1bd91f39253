// SPDX-License-Identifier: Apache-2.0
// The tile kernel agrees with the reference for any water and husbandry, and what a cell yields
// does not depend on which tile, batch or lane it falls in.
#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>
#include <vector>

#include "support/random_seasons.hpp"

using namespace tidelot;
using namespace tidelot::random_seasons;

namespace {

using Cells = std::vector<std::size_t>;

Cells in_order(std::size_t count) {
  Cells cells(count);
  std::iota(cells.begin(), cells.end(), std::size_t{0});
  return cells;
}

/// Grows a tile as cells in the order given, so many at a time; results in the tile's own order.
KernelResult grown(const KernelForcing& f, const Cells& order, std::size_t batch) {
  KernelResult all;
  all.yield_g_per_m.resize(f.cells);
  all.nitrogen_g_per_m.resize(f.cells);
  all.harvests.resize(f.cells);
  for (auto& factor : all.mean_factor) {
    factor.resize(f.cells);
  }
  for (std::size_t begin = 0; begin < f.cells; begin += batch) {
    const std::span cells = std::span(order).subspan(begin, std::min(batch, f.cells - begin));
    const KernelResult part = grow_tile(chosen(f, cells), Husbandry{}, alga());
    for (std::size_t i = 0; i < cells.size(); ++i) {
      all.yield_g_per_m[cells[i]] = part.yield_g_per_m[i];
      all.nitrogen_g_per_m[cells[i]] = part.nitrogen_g_per_m[i];
      all.harvests[cells[i]] = part.harvests[i];
      for (std::size_t j = 0; j < kFactors; ++j) {
        all.mean_factor[j][cells[i]] = part.mean_factor[j][i];
      }
    }
  }
  return all;
}

}  // namespace

TEST_CASE("10,000 random seasons agree with the double reference to 5e-6") {
  std::mt19937 random(21);
  for (unsigned tile = 0; tile < 20; ++tile) {
    INFO("tile " << tile);
    REQUIRE(worst_error(random_tile(500, 100 + tile), random_husbandry(random)) < 5e-6);
  }
}

TEST_CASE("the same season whichever batch a cell falls in") {
  const KernelForcing f = random_tile(700, 22);
  const KernelResult whole = grow_tile(f, Husbandry{}, alga());
  for (const std::size_t batch : {1U, 7U, 127U, 128U, 129U, 400U, 699U}) {
    INFO("batches of " << batch);
    CHECK(same_bytes(grown(f, in_order(f.cells), batch), whole));
  }
}

TEST_CASE("the same season whichever lane and neighbours a cell has") {
  const KernelForcing f = random_tile(700, 23);
  const KernelResult whole = grow_tile(f, Husbandry{}, alga());
  Cells order = in_order(f.cells);
  std::mt19937 random(24);
  for (int n = 0; n < 10; ++n) {
    std::shuffle(order.begin(), order.end(), random);
    CHECK(same_bytes(grown(f, order, 1 + random() % f.cells), whole));
  }
}
