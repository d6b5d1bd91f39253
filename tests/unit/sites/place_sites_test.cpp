// SPDX-License-Identifier: Apache-2.0
#include <boost/geometry.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "sites/rectangle.hpp"
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

Ring ring_of(const Rectangle& rectangle) {
  return ring_of(Path(rectangle.corners().begin(), rectangle.corners().end()));
}

/// A place as the rules word it, found without any of the room's short cuts.
struct Place {
  double score;
  int row, col, angle;
  Ring ring;
};

bool eligible(const ScoredBay& bay, std::size_t i, const SiteSize& size) {
  return bay.closed[i] == 0 && bay.suitability[i] >= 0.3F &&
         layout_of(size, static_cast<double>(bay.depth[i]) + 2.1, bay.plan.farm, false).usable_m >
             0.0;
}

/// Score of a place, or a negative number where it does not fit its cells.
double fit(const ScoredBay& bay, const Ring& ring, const SiteSize& size) {
  const double half = bay.grid.cell_m / 2.0 - 1e-5;
  double score = 0.0;
  const auto outside = [&](const Point& p) {
    return p.x() < bay.grid.west - 1e-6 || p.x() > bay.grid.east() + 1e-6 ||
           p.y() < bay.grid.south() - 1e-6 || p.y() > bay.grid.north + 1e-6;
  };
  if (std::any_of(ring.outer().begin(), ring.outer().end(), outside)) {
    return -1.0;
  }
  for (int row = 0; row < bay.grid.rows; ++row) {
    for (int col = 0; col < bay.grid.cols; ++col) {
      const XY c = bay.grid.centre(col, row);
      const bg::model::box<Point> cell(Point(c.x - half, c.y - half),
                                       Point(c.x + half, c.y + half));
      const std::size_t i = bay.grid.index(col, row);
      if (bg::intersects(cell, ring) && !eligible(bay, i, size)) {
        return -1.0;
      }
      if (bg::within(Point(c.x, c.y), ring)) {
        score += static_cast<double>(bay.suitability[i]) * static_cast<double>(bay.yield[i]);
      }
    }
  }
  return score;
}

std::vector<Place> every_place(const ScoredBay& bay, const SiteSize& size, const Ring& closed,
                               double setback) {
  std::vector<Place> places;
  for (int row = 0; row < bay.grid.rows; ++row) {
    for (int col = 0; col < bay.grid.cols; ++col) {
      for (int angle = 0; angle < 12; ++angle) {
        const Ring ring = ring_of(Rectangle(bay.grid.centre(col, row), 15.0 * angle, size));
        const double score = fit(bay, ring, size);
        if (score > 0.0 && bg::distance(ring, closed) >= setback - 1e-6) {
          places.push_back({score, row, col, angle, ring});
        }
      }
    }
  }
  return places;
}

/// The best, then the best of those that keep the gap to it, and so on.
std::vector<Place> greedy(std::vector<Place> places, std::size_t count, double gap) {
  std::vector<Place> chosen;
  while (chosen.size() < count && !places.empty()) {
    const auto best =
        std::max_element(places.begin(), places.end(),
                         [](const Place& a, const Place& b) { return a.score < b.score; });
    chosen.push_back(*best);
    const Ring ring = best->ring;
    places.erase(std::remove_if(places.begin(), places.end(),
                                [&](const Place& p) { return bg::distance(p.ring, ring) < gap; }),
                 places.end());
  }
  return chosen;
}

/// Uneven water with an island, a deep hole and a closed zone.
ScoredBay rough_bay(unsigned seed) {
  ScoredBay bay(26, 22, 10.0);
  bay.plan.sites.area_ha = 0.3137;  // no cell centre falls on an edge
  bay.plan.sites.length_to_width = 2.1;
  bay.plan.sites.gap_m = 25.0;
  bay.plan.farm.margin_m = 5.0;
  bay.plan.farm.scope = 2.0;
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> unit(0.0F, 1.0F);
  for (std::size_t i = 0; i < bay.grid.size(); ++i) {
    bay.suitability[i] = 0.31F + 0.6F * unit(random);
    bay.yield[i] = 0.5F + 2.0F * unit(random);
    bay.depth[i] = 4.0F + 6.0F * unit(random);
  }
  for (int i = 0; i < 4; ++i) {
    bay.suitability[random() % bay.grid.size()] = 0.2F;
    bay.depth[random() % bay.grid.size()] = 40.0F;
    bay.set_land(random() % bay.grid.size());
  }
  return bay;
}

}  // namespace

TEST_CASE("the ranking is that of an exhaustive search") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    ScoredBay bay = rough_bay(seed);
    const Path zone{{1003, 4991}, {1041, 4987}, {1017, 4950}, {1003, 4991}};
    bay.add_rule("eelgrass beds", Shape{{{zone, {}}}, {}, {}}, 17.0);
    const SiteSize size = site_size(bay.plan.sites, bay.plan.farm);
    const auto places = every_place(bay, size, ring_of(zone), 17.0);
    const auto expected = greedy(places, 3, 25.0);
    const SitesResult result = bay.place();
    CAPTURE(seed, places.size());
    REQUIRE(!expected.empty());
    REQUIRE(result.ranked.size() == expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
      const Site& site = result.ranked[i];
      CHECK(site.score == Approx(expected[i].score).epsilon(1e-6));
      CHECK(site.angle_deg == 15.0 * expected[i].angle);
      const XY centre = bay.grid.centre(expected[i].col, expected[i].row);
      CHECK(site.centre.lon == Approx(centre.x / test::kMetresPerDegree).margin(1e-6));
      CHECK(site.centre.lat == Approx(centre.y / test::kMetresPerDegree).margin(1e-6));
    }
  }
}

TEST_CASE("equal sites rank by row, then column, then angle") {
  ScoredBay bay(60, 60, 10.0);
  bay.plan.sites.area_ha = 1.0;
  bay.plan.sites.length_to_width = 1.0;
  const SitesResult result = bay.place();
  REQUIRE(result.ranked.size() == 3);
  // 100 m squares at 10 m cells: at 0 degrees 81 centres lie inside; some turned ones hold more.
  for (std::size_t i = 1; i < result.ranked.size(); ++i) {
    CHECK(result.ranked[i - 1].score >= result.ranked[i].score);
    if (result.ranked[i - 1].score == result.ranked[i].score) {
      CHECK(result.ranked[i - 1].centre.lat >= result.ranked[i].centre.lat);
    }
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
