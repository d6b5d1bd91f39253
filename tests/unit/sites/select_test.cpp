// SPDX-License-Identifier: Apache-2.0
// The search for places against brute force: rectangles at every quarter of a cell and every five
// degrees. The brute force scores by fit_of(), which is held against another library first.
#include "sites/select.hpp"

#include <boost/geometry.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "sites/fit.hpp"
#include "support/scored_bay.hpp"

using namespace tidelot;
using tidelot::test::ScoredBay;
namespace bg = boost::geometry;

namespace {

using Point = bg::model::d2::point_xy<double>;
using Ring = bg::model::polygon<Point>;

constexpr double kSetback_m = 17.0;
constexpr double kGap_m = 25.0;

Ring ring_of(std::span<const XY> path) {
  Ring ring;
  for (const XY p : path) {
    bg::append(ring.outer(), Point(p.x, p.y));
  }
  bg::correct(ring);
  return ring;
}

double common_area(const Ring& a, const Ring& b) {
  std::vector<Ring> parts;
  bg::intersection(a, b, parts);
  double area = 0.0;
  for (const Ring& part : parts) {
    area += std::abs(bg::area(part));
  }
  return area;
}

const Path kZone{{1003, 4991}, {1041, 4987}, {1017, 4950}, {1003, 4991}};

/// Uneven water, smoothed over a few cells or not at all, with rocks, holes and a closed zone.
ScoredBay rough_bay(unsigned seed, int smoothing) {
  ScoredBay bay(26, 22, 10.0);
  bay.plan.sites.area_ha = 0.3137;
  bay.plan.sites.length_to_width = 2.1;
  bay.plan.sites.gap_m = kGap_m;
  bay.plan.farm.margin_m = 5.0;
  bay.plan.farm.scope = 2.0;
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> unit(0.0F, 1.0F);
  for (std::size_t i = 0; i < bay.grid.size(); ++i) {
    bay.suitability[i] = 0.31F + 0.6F * unit(random);
    bay.yield[i] = 0.5F + 2.0F * unit(random);
    bay.depth[i] = 4.0F + 6.0F * unit(random);
  }
  for (int round = 0; round < smoothing; ++round) {
    const auto before = bay.yield;
    for (std::size_t i = 27; i + 27 < bay.grid.size(); ++i) {
      bay.yield[i] =
          (before[i - 26] + before[i - 1] + before[i] + before[i + 1] + before[i + 26]) / 5;
    }
  }
  for (int i = 0; i < 5; ++i) {
    bay.suitability[random() % bay.grid.size()] = 0.2F;
    bay.depth[random() % bay.grid.size()] = 40.0F;
    bay.set_land(random() % bay.grid.size());
  }
  bay.add_rule("eelgrass beds", Shape{{{kZone, {}}}, {}, {}}, kSetback_m);
  return bay;
}

/// A bay with what the search needs of it.
struct Water {
  ScoredBay bay;
  ScoredMaps maps;
  SiteSize size;
  Waters waters;
  GroundField field;
  explicit Water(ScoredBay in)
      : bay(std::move(in)),
        maps(bay.maps()),
        size(site_size(bay.plan.sites, bay.plan.farm)),
        waters{bay.plan, bay.grid, maps, size},
        field(waters, Wanted::ranked, false) {}
  Water(const Water&) = delete;

  [[nodiscard]] Ground ground(std::size_t i) const { return ground_at(bay.plan, maps, size, i); }

  using Scored = std::pair<std::int64_t, SiteBox>;

  /// All rectangles of the fine lattice on open ground, the best first.
  [[nodiscard]] std::vector<Scored> fine_lattice() const {
    std::vector<Scored> all;
    for (double y = bay.grid.south(); y <= bay.grid.north; y += bay.grid.cell_m / 4.0) {
      for (double x = bay.grid.west; x <= bay.grid.east(); x += bay.grid.cell_m / 4.0) {
        for (double angle = 0.0; angle < 180.0; angle += 5.0) {
          const SiteBox box({x, y}, angle, size);
          const Fit fit = fit_of(box, bay.grid, field);
          if (fit.barred == 0.0) {
            all.emplace_back(fit.score, box);
          }
        }
      }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Scored& a, const Scored& b) { return a.first > b.first; });
    return all;
  }

  /// The best score of those that keep the setback, and the gap to the sites.
  [[nodiscard]] static double brute_force(const std::vector<Scored>& lattice,
                                          std::span<const Site> before) {
    const Ring zone = ring_of(kZone);
    const auto best = std::find_if(lattice.begin(), lattice.end(), [&](const Scored& one) {
      return lawful(one.second, zone, before);
    });
    return best == lattice.end() ? 0.0 : score_of_whole(best->first);
  }

  [[nodiscard]] static bool lawful(const SiteBox& box, const Ring& zone,
                                   std::span<const Site> before) {
    const Ring ring = ring_of(box.corners());
    return bg::distance(ring, zone) >= kSetback_m &&
           std::all_of(before.begin(), before.end(), [&](const Site& site) {
             return bg::distance(ring, ring_of(site.corners_xy)) >= kGap_m;
           });
  }
};

}  // namespace

TEST_CASE("what lies under a rectangle is what an overlay with every cell says") {
  const Water water(rough_bay(3, 0));
  const Grid& grid = water.bay.grid;
  std::mt19937 random(5);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  for (int i = 0; i < 100; ++i) {
    const SiteBox box({grid.west + 260.0 * unit(random), grid.south() + 220.0 * unit(random)},
                      180.0 * unit(random), water.size);
    const Ring ring = ring_of(box.corners());
    double score = 0.0;
    double open = 0.0;
    for (int row = 0; row < grid.rows; ++row) {
      for (int col = 0; col < grid.cols; ++col) {
        const XY c = grid.centre(col, row);
        const std::array<XY, 4> cell{XY{c.x - 5, c.y - 5}, XY{c.x + 5, c.y - 5},
                                     XY{c.x + 5, c.y + 5}, XY{c.x - 5, c.y + 5}};
        const std::size_t at = grid.index(col, row);
        if (water.ground(at) == Ground::good) {
          const double share = common_area(ring, ring_of(cell)) / 100.0;
          score += share * static_cast<double>(water.bay.suitability[at]) *
                   static_cast<double>(water.bay.yield[at]);
          open += share;
        }
      }
    }
    const Fit fit = fit_of(box, grid, water.field);
    CHECK(score_of_whole(fit.score) == Approx(score).margin(1e-4));
    CHECK(fit.barred == Approx(bg::area(ring) / 100.0 - open).margin(1e-4));
  }
}

TEST_CASE("every site is within 2 % of the best that brute force finds") {
  std::size_t sites = 0;
  for (const int smoothing : {0, 2}) {
    for (unsigned seed = 1; seed <= 3; ++seed) {
      const Water water(rough_bay(seed, smoothing));
      const SitesResult result = water.bay.place();
      const std::span<const Site> ranked = result.ranked;
      const auto lattice = water.fine_lattice();
      for (std::size_t i = 0; i < ranked.size(); ++i) {
        const double brute = Water::brute_force(lattice, ranked.first(i));
        CAPTURE(seed, smoothing, i);
        CHECK(ranked[i].score >= 0.98 * brute);
        ++sites;
      }
    }
  }
  CHECK(sites >= 12);
}

TEST_CASE("sites keep to open water, the setback and the gap by another library's geometry") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const Water water(rough_bay(seed, 1));
    const SitesResult result = water.bay.place();
    for (std::size_t i = 0; i < result.ranked.size(); ++i) {
      const Ring ring = ring_of(result.ranked[i].corners_xy);
      CHECK(bg::distance(ring, ring_of(kZone)) >= kSetback_m - 1e-5);
      for (std::size_t j = 0; j < i; ++j) {
        CHECK(bg::distance(ring, ring_of(result.ranked[j].corners_xy)) >= kGap_m - 1e-5);
      }
      for (int row = 0; row < water.bay.grid.rows; ++row) {
        for (int col = 0; col < water.bay.grid.cols; ++col) {
          const XY c = water.bay.grid.centre(col, row);
          const std::array<XY, 4> cell{XY{c.x - 5, c.y - 5}, XY{c.x + 5, c.y - 5},
                                       XY{c.x + 5, c.y + 5}, XY{c.x - 5, c.y + 5}};
          if (is_barred(water.ground(water.bay.grid.index(col, row)))) {
            CHECK(common_area(ring, ring_of(cell)) < 1e-3);
          }
        }
      }
    }
  }
}

TEST_CASE("a channel that no cell centre's rectangle fits is found all the same") {
  ScoredBay bay(30, 12, 10.0);
  bay.plan.sites.area_ha = 0.18;  // 94.9 x 19.0 m
  bay.plan.sites.length_to_width = 5.0;
  bay.plan.sites.count = 1;
  bay.plan.farm.margin_m = 2.0;
  bay.plan.farm.scope = 1.0;
  for (int row = 0; row < 12; ++row) {
    for (int col = 0; col < 30; ++col) {
      if (row != 5 && row != 6) {
        bay.set_land(bay.grid.index(col, row));
      }
    }
  }
  const Water water(bay);  // two rows of cells wide
  const auto footprints = footprints_of(water.size, bay.grid.cell_m);
  const GroundSurvey ground = survey_ground(water.waters);
  CHECK_FALSE(Candidates(bay.grid, water.field, footprints, ground.ceiling).pop());
  const SitesResult result = bay.place();
  REQUIRE(result.ranked.size() == 1);
  CHECK(result.ranked[0].angle_deg == 90.0);
  CHECK(result.ranked[0].score == Approx(1.6 * 18.0).epsilon(1e-6));
}
