// SPDX-License-Identifier: Apache-2.0
#include "sites/notes.hpp"

#include <catch2/catch.hpp>

#include "support/scored_bay.hpp"

using namespace tidelot;
using tidelot::test::ScoredBay;

TEST_CASE("no open water: an answer with its reason, not an error") {
  ScoredBay bay(20, 20, 10.0);
  for (std::size_t i = 0; i < bay.grid.size(); ++i) {
    bay.set_closed(i);
  }
  const SitesResult result = bay.place();
  CHECK(result.ranked.empty());
  CHECK(result.apart.empty());
  CHECK(result.eligible_cells == 0);
  REQUIRE(result.notes.size() == 2);
  CHECK(result.notes[0] == "No site was found.");
  CHECK(result.notes[1].find("No cell is open") == 0);
}

TEST_CASE("water too deep for the anchor legs is counted and named") {
  ScoredBay bay(40, 40, 10.0);
  bay.depth.assign(bay.grid.size(), 25.0F);
  const SitesResult result = bay.place();
  CHECK(result.ranked.empty());
  CHECK(result.too_deep_for_size == bay.grid.size());
  CHECK(result.eligible_cells == 0);
  REQUIRE(result.notes.size() == 3);
  CHECK(result.notes[2].find("too deep: from 26.6 m at high water") != std::string::npos);
}

TEST_CASE("good water without room says so") {
  ScoredBay bay(12, 40, 10.0);
  for (int row = 0; row < 40; ++row) {
    bay.set_land(bay.grid.index(6, row));
  }
  const SitesResult result = bay.place();
  CHECK(result.ranked.empty());
  CHECK(result.fitting_places == 0);
  CHECK(result.notes.back() ==
        "The good water has no room for 189.7 x 63.2 m at any of the angles tried.");
}

TEST_CASE("a grid smaller than a site, and a site smaller than its margins, give no site") {
  ScoredBay small(5, 5, 10.0);
  CHECK(small.place().ranked.empty());
  ScoredBay bay(40, 40, 10.0);
  bay.plan.sites.area_ha = 0.05;
  const SitesResult result = bay.place();
  CHECK(result.ranked.empty());
  CHECK(result.notes.at(1).find("no room for a line inside margins of 15 m") != std::string::npos);
}

TEST_CASE("fewer sites than asked for: the gap is named") {
  ScoredBay bay(24, 24, 10.0);
  bay.plan.sites.gap_m = 500.0;
  const SitesResult result = bay.place();
  CHECK(result.ranked.size() == 1);
  CHECK(result.notes.front() == "1 of the 3 sites asked for were found.");
  CHECK(result.notes.back() == "The rest lies nearer than 500 m to a ranked site.");
}
