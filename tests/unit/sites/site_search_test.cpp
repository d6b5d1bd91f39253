// SPDX-License-Identifier: Apache-2.0
// The best site found again under other rules, against placing sites on that water from nothing.
#include "tidelot/sites/site_search.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "support/scored_bay.hpp"

using namespace tidelot;
using tidelot::test::ScoredBay;

namespace {

const Path kZone{{1103, 4951}, {1241, 4887}, {1117, 4850}, {1103, 4951}};

/// Uneven water with closed patches, a zone, and for some seeds what is not known.
ScoredBay bay_of(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> unit(0.0F, 1.0F);
  ScoredBay bay(60, 50, 10.0);
  bay.plan.sites.area_ha = 0.4;
  bay.plan.sites.count = 1;
  bay.plan.farm.margin_m = 5.0;
  bay.plan.farm.scope = 1.0;
  const std::size_t n = bay.grid.size();
  for (std::size_t i = 0; i < n; ++i) {
    bay.suitability[i] = 0.2F + 0.7F * unit(random);
    bay.yield[i] = 0.5F + 2.0F * unit(random);
  }
  for (std::size_t k = 0; k < n / 100; ++k) {
    bay.set_land(random() % n);
    if (seed % 2 == 0) {
      bay.set_salinity_unknown(random() % n);
      bay.set_depth_unknown(random() % n);
    }
  }
  bay.plan.sites.min_suitability = 0.25;
  bay.add_rule("eelgrass beds", Shape{{{kZone, {}}}, {}, {}}, 17.0);
  return bay;
}

/// Closes or opens patches of water; the cells that changed. Suitability stays as if it were open.
std::vector<std::size_t> change(ScoredBay& bay, std::span<const float> open, std::mt19937& random) {
  const std::vector<std::uint32_t> before = bay.closed;
  for (int patch = 0; patch < 6; ++patch) {
    const int col0 = static_cast<int>(random() % 50), row0 = static_cast<int>(random() % 40);
    const std::uint32_t code = patch % 3 == 0 ? 0U : patch % 3 == 1 ? 1U : kClosedUnknown;
    for (int row = row0; row < row0 + 9; ++row) {
      for (int col = col0; col < col0 + 9; ++col) {
        const std::size_t i = bay.grid.index(col, row);
        if (bay.closed[i] != kClosedNotWater && !std::isnan(bay.depth[i])) {
          bay.closed[i] = code;
        }
      }
    }
  }
  std::vector<std::size_t> changed;
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (before[i] != bay.closed[i]) {
      changed.push_back(i);
      bay.suitability[i] = open[i];
    }
  }
  return changed;
}

void check_same(const std::optional<Site>& found, const SitesResult& placed) {
  REQUIRE(found.has_value() == !placed.ranked.empty());
  if (found) {
    const Site& site = placed.ranked.front();
    for (std::size_t i = 0; i < 4; ++i) {
      CHECK(found->corners_xy[i].x == site.corners_xy[i].x);
      CHECK(found->corners_xy[i].y == site.corners_xy[i].y);
    }
    CHECK(found->score == site.score);
    CHECK(found->yield_without_t == site.yield_without_t);
    CHECK(found->unknown_share == site.unknown_share);
  }
}

}  // namespace

TEST_CASE("the best site under other rules is that of a search from nothing") {
  std::size_t elsewhere = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    CAPTURE(seed);
    ScoredBay open = bay_of(seed);  // suitability as if nothing closed it
    for (std::size_t i = 0; i < open.grid.size(); ++i) {
      open.suitability[i] = open.closed[i] == 1U << 8U ? 0.7F : open.suitability[i];
    }
    const ScoredMaps planned_maps = open.maps();
    const test::FlatGeodesy geodesy;
    twins::FunctionProjector projector = test::flat_projector(open.scale);
    const auto names = reason_names(open.plan);
    SiteSearch search(open.plan, open.grid, planned_maps, open.rules, open.near, names, projector,
                      geodesy);
    const SitesResult planned = search.place();
    check_same(search.best({open.plan, planned_maps, open.rules, open.near, {}}, {}, projector),
               planned);
    std::mt19937 random(seed);
    for (const double factor : {1.0, 0.5, 1.7}) {
      ScoredBay moved = open;
      const auto changed = change(moved, open.suitability, random);
      REQUIRE(!changed.empty());
      moved.plan.sites.min_suitability *= factor;
      moved.rules[0].features[0].setback_m *= factor;
      const ScoredMaps maps = moved.maps();
      const auto found =
          search.best({moved.plan, maps, moved.rules, moved.near, changed}, {}, projector);
      const SitesResult placed = moved.place();
      check_same(found, placed);
      elsewhere +=
          found && !planned.ranked.empty() && found->score != planned.ranked.front().score ? 1 : 0;
    }
  }
  CHECK(elsewhere > 8);
}
