// SPDX-License-Identifier: Apache-2.0
#include "sites/candidates.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "support/plain_candidates.hpp"
#include "support/scored_bay.hpp"

using namespace tidelot;
using tidelot::test::PlainCandidates;
using tidelot::test::ScoredBay;

namespace {

/// The search over a bay, for sites of one size.
struct Search {
  ScoredBay bay;
  ScoredMaps maps;
  SiteSize size;
  Waters waters;
  std::vector<std::int16_t> along;
  std::vector<Footprint> footprints;
  explicit Search(ScoredBay in, SiteSize of_size = {55.0, 25.0},
                  std::vector<std::int16_t> axis = {})
      : bay(std::move(in)),
        maps(bay.maps()),
        size(of_size),
        waters{bay.plan, bay.grid, maps, size},
        along(std::move(axis)),
        footprints(footprints_of(size, 10.0, along.empty() ? 12 : 180)) {
    bay.plan.farm.margin_m = 0.0;
    bay.plan.farm.scope = 0.0;
  }
  Search(const Search&) = delete;
  [[nodiscard]] std::vector<Candidate> all(Wanted wanted) const {
    const GroundSurvey ground = survey_ground(waters);
    const GroundField field(waters, wanted, ground.count.unknown == 0);
    Candidates candidates(bay.grid, field, footprints, ground.ceiling, along);
    std::vector<Candidate> found;
    while (const auto best = candidates.pop()) {
      found.push_back(*best);
      candidates.next_angle(*best);
    }
    CHECK(found.size() == candidates.fitting());
    return found;
  }
  /// Those that fit nearly, `at_once` of them before the bound is lowered.
  [[nodiscard]] std::vector<Candidate> nearly(Wanted wanted) const {
    const GroundSurvey ground = survey_ground(waters);
    const GroundField field(waters, wanted, ground.count.unknown == 0);
    Candidates candidates(bay.grid, field, footprints, ground.ceiling, along);
    std::vector<Candidate> found;
    for (const std::int64_t least : {60 << 20, 30 << 20, 29 << 20, 10 << 20, 0}) {
      while (const auto next = candidates.nearly(found.size(), least)) {
        CHECK(next->score >= least);
        found.push_back(*next);
      }
    }
    return found;
  }
};

bool same(const std::vector<Candidate>& a, const std::vector<Candidate>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Candidate& x, const Candidate& y) {
                      return !ranks_before(x, y) && !ranks_before(y, x);
                    });
}

/// Uneven or even water with land, closed patches, poor and deep cells, and much that is not known.
ScoredBay uneven_bay(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> unit(0.0F, 1.0F);
  ScoredBay bay(31 + static_cast<int>(random() % 20), 27 + static_cast<int>(random() % 20), 10.0);
  const bool even = seed % 3 == 0;
  const std::size_t n = bay.grid.size();
  for (std::size_t i = 0; i < n && !even; ++i) {
    bay.suitability[i] = 0.3F + 0.6F * unit(random);
    bay.yield[i] = -0.1F + 2.0F * unit(random);
  }
  for (std::size_t k = 0; k < n / 60; ++k) {
    bay.set_land(random() % n);
    bay.suitability[random() % n] = 0.2F;
    bay.depth[random() % n] = 80.0F;
    bay.yield[random() % n] = std::numeric_limits<float>::quiet_NaN();
    if (seed % 2 == 0) {
      bay.set_salinity_unknown(random() % n);
      bay.set_depth_unknown(random() % n);
    }
  }
  for (int row = 3; row < 12; ++row) {
    for (int col = 4; col < 15; ++col) {
      bay.set_closed(bay.grid.index(col, row));
    }
  }
  return bay;
}

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

TEST_CASE("the search hands out what a look at every cell finds, in the same order") {
  std::size_t places = 0, apart = 0, nearly = 0;
  for (unsigned seed = 1; seed <= 24; ++seed) {
    std::vector<std::int16_t> along;
    const ScoredBay bay = uneven_bay(seed);
    if (seed % 4 == 1) {
      std::mt19937 random(seed);
      for (std::size_t i = 0; i < bay.grid.size(); ++i) {
        along.push_back(static_cast<std::int16_t>(random() % 181) - 1);
      }
    }
    const SiteSize size = seed % 5 == 0   ? SiteSize{9.0, 6.0}
                          : seed % 5 == 1 ? SiteSize{140.0, 22.0}
                                          : SiteSize{55.0, 25.0};
    const Search search(bay, size, along);
    for (const Wanted wanted : {Wanted::ranked, Wanted::apart}) {
      const PlainCandidates plain(search.waters, search.footprints, wanted, along);
      CAPTURE(seed, wanted == Wanted::apart);
      CHECK(same(search.all(wanted), plain.places));
      CHECK(same(search.nearly(wanted), plain.nearly));
      (wanted == Wanted::ranked ? places : apart) += plain.places.size();
      nearly += plain.nearly.size();
    }
  }
  CHECK(places > 10000);
  CHECK(apart > 1000);
  CHECK(nearly > 1000);
}

TEST_CASE("a search that is led needs little of a large bay") {
  ScoredBay bay(400, 400, 10.0);
  for (std::size_t i = 0; i < bay.grid.size(); ++i) {
    const auto row = static_cast<float>(i / 400);
    bay.yield[i] = 1.0F + 0.001F * row;
  }
  const Search search(bay);
  const GroundSurvey ground = survey_ground(search.waters);
  const GroundField field(search.waters, Wanted::ranked, true);
  Candidates candidates(bay.grid, field, search.footprints, ground.ceiling);
  const auto best = candidates.pop();
  REQUIRE(best);
  CHECK(best->row > 380);
  CHECK(field.cells_summed() < bay.grid.size() / 2);
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
