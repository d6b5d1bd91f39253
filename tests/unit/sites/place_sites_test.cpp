// SPDX-License-Identifier: Apache-2.0
#include <boost/geometry.hpp>
#include <catch2/catch.hpp>

#include "support/scored_bay.hpp"

using namespace tidelot;
using tidelot::test::ScoredBay;
namespace bg = boost::geometry;

namespace {

using Point = bg::model::d2::point_xy<double>;
using Ring = bg::model::polygon<Point>;

Ring ring_of(const Path& path) {
  Ring ring;
  for (const XY p : path) {
    bg::append(ring.outer(), Point(p.x, p.y));
  }
  bg::correct(ring);
  return ring;
}

}  // namespace

TEST_CASE("equal sites rank by row, then column, then angle") {
  ScoredBay bay(60, 60, 10.0);
  bay.plan.sites.area_ha = 1.0;
  bay.plan.sites.length_to_width = 1.0;
  const SitesResult result = bay.place();
  REQUIRE(result.ranked.size() == 3);
  // Every place holds the same: the first one is the first cell that has room for the first angle.
  CHECK(result.ranked[0].angle_deg == 0.0);
  CHECK(result.ranked[0].centre.lat == Approx(0.04995 - 0.0005).margin(1e-6));
  for (std::size_t i = 1; i < result.ranked.size(); ++i) {
    CHECK(result.ranked[i - 1].score == result.ranked[i].score);
    CHECK(result.ranked[i - 1].centre.lat >= result.ranked[i].centre.lat);
  }
  CHECK(result.notes.empty());
}

TEST_CASE("sites never overlap, even without a gap, and keep the gap asked for") {
  for (const auto& [gap, scale] : {std::pair{0.0, 1.0}, {35.0, 1.0}, {35.0, 1.25}}) {
    ScoredBay bay(80, 60, 10.0);
    bay.scale = scale;
    bay.plan.sites.gap_m = gap;
    bay.plan.sites.count = 4;
    const auto sites = bay.place().ranked;
    REQUIRE(sites.size() == 4);
    for (std::size_t i = 0; i < sites.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const Ring a = ring_of(Path(sites[i].corners_xy.begin(), sites[i].corners_xy.end()));
        const Ring b = ring_of(Path(sites[j].corners_xy.begin(), sites[j].corners_xy.end()));
        CHECK(bg::distance(a, b) >= gap * scale - 1e-5);
        std::vector<Ring> common;
        bg::intersection(a, b, common);
        for (const Ring& part : common) {
          CHECK(bg::area(part) < 1e-2);
        }
      }
    }
  }
}

TEST_CASE("a ranked site holds no unknown depth and at most a fifth of unknown water") {
  ScoredBay bay(60, 40, 10.0);
  bay.plan.sites.count = 2;
  bay.plan.sites.gap_m = 20.0;
  for (int row = 0; row < 40; ++row) {
    for (int col = 0; col < 20; ++col) {
      bay.set_depth_unknown(bay.grid.index(col, row));
      bay.set_salinity_unknown(bay.grid.index(40 + col, row));
    }
  }
  const SitesResult result = bay.place();
  REQUIRE(!result.ranked.empty());
  for (const Site& site : result.ranked) {
    CHECK(site.unknown_share <= 0.2);
    for (const XY corner : site.corners_xy) {
      CHECK(corner.x >= 1200.0 - 1e-6);
    }
  }
  REQUIRE(!result.apart.empty());
  CHECK(result.apart[0].name == "A01");
  CHECK(result.apart[0].rank == 1);
  for (const Site& site : result.apart) {
    const bool touches_unknown_depth =
        std::any_of(site.corners_xy.begin(), site.corners_xy.end(),
                    [](XY corner) { return corner.x < 1200.0 - 1e-6; });
    CHECK((touches_unknown_depth || site.unknown_share > 0.2));
    CHECK(site.score > 0.0);
    const Ring a = ring_of(Path(site.corners_xy.begin(), site.corners_xy.end()));
    for (const Site& ranked : result.ranked) {
      CHECK(bg::distance(a, ring_of(Path(ranked.corners_xy.begin(), ranked.corners_xy.end()))) >=
            20.0 - 1e-5);
    }
  }
}

TEST_CASE("a crop that would be lost everywhere gives no site") {
  ScoredBay bay(40, 40, 10.0);
  bay.yield.assign(bay.grid.size(), -0.1F);
  CHECK(bay.place().ranked.empty());
}

TEST_CASE("a fifth of unknown water is the most that a ranked site holds") {
  for (const int unknown_cols : {3, 5}) {
    ScoredBay bay(20, 7, 10.0);  // room for one row of sites, long side east
    bay.plan.sites.count = 1;
    for (int row = 0; row < 7; ++row) {
      for (int col = 0; col < unknown_cols; ++col) {
        bay.set_salinity_unknown(bay.grid.index(5 + 2 * col, row));
      }
    }
    const SitesResult result = bay.place();
    const bool ranked = unknown_cols == 3;  // 3 or 5 of the 19 columns that a site covers
    CHECK(result.ranked.size() == (ranked ? 1U : 0U));
    CHECK(result.apart.size() == (ranked ? 0U : 1U));
  }
}
