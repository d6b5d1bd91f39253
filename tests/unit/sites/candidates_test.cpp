// SPDX-License-Identifier: Apache-2.0
#include "sites/candidates.hpp"

#include <catch2/catch.hpp>

#include "support/scored_bay.hpp"

using namespace tidelot;
using tidelot::test::ScoredBay;

namespace {

/// The search over a bay, for sites of one size.
struct Search {
  ScoredBay bay;
  SiteSize size{55.0, 25.0};
  std::vector<Footprint> footprints;
  explicit Search(ScoredBay in) : bay(std::move(in)), footprints(footprints_of(size, 10.0)) {
    bay.plan.farm.margin_m = 0.0;
    bay.plan.farm.scope = 0.0;
  }
  [[nodiscard]] std::vector<Candidate> all(Wanted wanted) {
    const ScoredMaps maps = bay.maps();
    const GroundMap ground = ground_of(bay.plan, maps, size);
    const GroundField field(bay.grid, maps, ground, wanted);
    Candidates candidates(bay.grid, field, footprints);
    std::vector<Candidate> found;
    while (const auto best = candidates.pop()) {
      found.push_back(*best);
      candidates.next_angle(*best);
    }
    CHECK(found.size() == candidates.fitting());
    return found;
  }
};

}  // namespace

TEST_CASE("a higher score ranks first, then row, column and angle") {
  CHECK(ranks_before({2, 9, 9, 9}, {1, 0, 0, 0}));
  CHECK(ranks_before({1, 0, 9, 9}, {1, 1, 0, 0}));
  CHECK(ranks_before({1, 1, 0, 9}, {1, 1, 1, 0}));
  CHECK(ranks_before({1, 1, 1, 0}, {1, 1, 1, 1}));
  CHECK_FALSE(ranks_before({1, 1, 1, 1}, {1, 1, 1, 1}));
}

TEST_CASE("every fitting place comes once, in the order of the ranking") {
  ScoredBay bay(14, 12, 10.0);
  for (std::size_t i = 0; i < bay.grid.size(); ++i) {
    bay.yield[i] = static_cast<float>(1 + i % 3);
  }
  const auto found = Search(bay).all(Wanted::ranked);
  REQUIRE(found.size() > 100);
  for (std::size_t i = 1; i < found.size(); ++i) {
    REQUIRE(ranks_before(found[i - 1], found[i]));
  }
}

TEST_CASE("a place is either ranked or apart, never both") {
  ScoredBay bay(14, 12, 10.0);
  const std::size_t everywhere = Search(bay).all(Wanted::ranked).size();
  for (int row = 0; row < 12; ++row) {
    for (int col = 6; col < 14; ++col) {
      row < 6 ? bay.set_depth_unknown(bay.grid.index(col, row))
              : bay.set_salinity_unknown(bay.grid.index(col, row));
    }
  }
  const auto ranked = Search(bay).all(Wanted::ranked);
  const auto apart = Search(bay).all(Wanted::apart);
  CHECK(!ranked.empty());
  CHECK(!apart.empty());
  CHECK(ranked.size() + apart.size() < everywhere);  // without a known cell a place is neither
  for (const Candidate& a : ranked) {
    for (const Candidate& b : apart) {
      REQUIRE_FALSE((a.row == b.row && a.col == b.col && a.angle == b.angle));
    }
  }
}
