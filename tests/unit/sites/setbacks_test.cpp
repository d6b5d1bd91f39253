// SPDX-License-Identifier: Apache-2.0
#include "sites/setbacks.hpp"

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

ClosedLayer rock(double setback_m, bool caution) {
  ClosedLayer layer;
  layer.plan.setback_m = setback_m;
  layer.plan.caution = caution;
  layer.features = {{Shape{{}, {}, {{100.0, 0.0}}}, ""}};
  layer.features[0].setback_m = setback_m;
  return layer;
}

bool kept(const ClosedLayer& layer, double scale, double x) {
  const SetbackEdges edges({&layer, 1});
  return Setbacks(edges, {&layer, 1}, scale).kept_by(SiteBox({x, 0.0}, 90.0, {40.0, 10.0}), 0xFFF);
}

}  // namespace

TEST_CASE("a setback is kept when the edge lies exactly on it") {
  CHECK(kept(rock(30.0, false), 1.0, 50.0));
  CHECK_FALSE(kept(rock(30.0, false), 1.0, 50.01));
  CHECK_FALSE(kept(rock(30.0, false), 1.01, 50.0));
}

TEST_CASE("cautions and rules without a setback do not keep a site off") {
  CHECK(kept(rock(30.0, true), 1.0, 90.0));
  CHECK(kept(rock(0.0, false), 1.0, 90.0));
}

TEST_CASE("the edge of a site keeps the setback that its cells alone would not") {
  for (const double scale : {1.0, 1.25}) {
    ScoredBay bay(40, 40, 10.0);
    bay.scale = scale;
    bay.plan.sites.area_ha = 0.2337;
    bay.plan.farm.margin_m = 0.0;
    bay.plan.farm.scope = 1.0;
    bay.plan.sites.count = 40;
    bay.plan.sites.gap_m = 0.0;
    // Each rock shuts its own cell only; the cells beside it end half a metre from it.
    Shape rocks;
    for (int i = 0; i < 12; ++i) {
      rocks.points.push_back({1100.5 + 20.0 * i, 4900.5 - 30.0 * (i % 5)});
    }
    bay.add_rule("rocks", rocks, 4.0);
    const SitesResult result = bay.place();
    REQUIRE(result.ranked.size() > 10);
    for (const Site& site : result.ranked) {
      const Ring ring = ring_of(Path(site.corners_xy.begin(), site.corners_xy.end()));
      double nearest = 1e9;
      for (const XY rock : rocks.points) {
        nearest = std::min(nearest, bg::distance(Point(rock.x, rock.y), ring));
      }
      CHECK(nearest >= 4.0 * scale - 1e-5);
      REQUIRE(site.rules.size() == 1);
      CHECK(site.rules[0].distance_m == Approx(nearest / scale));
    }
  }
}

TEST_CASE("a rule of some months is kept only by gear of those months") {
  ClosedLayer layer = rock(30.0, false);
  layer.plan.months = 1U << 6U;  // July
  const SetbackEdges edges({&layer, 1});
  const Setbacks setbacks(edges, {&layer, 1}, 1.0);
  const SiteBox near({60.0, 0.0}, 90.0, {40.0, 10.0});
  CHECK_FALSE(setbacks.kept_by(near, 1U << 6U));
  CHECK_FALSE(setbacks.kept_by(near, 0xFFF));
  CHECK(setbacks.kept_by(near, 1U << 0U));
}

TEST_CASE("shapes whose standing is not closed, and rules that do not apply, bar no site") {
  ClosedLayer layer = rock(30.0, false);
  layer.features[0].standing = Standing::unknown;
  CHECK(kept(layer, 1.0, 60.0));
  layer = rock(30.0, false);
  layer.plan.applies = false;
  CHECK(kept(layer, 1.0, 60.0));
}

TEST_CASE("edges of the planned setbacks serve moved ones") {
  const ClosedLayer planned = rock(30.0, false);
  const ClosedLayer moved = rock(45.0, false);
  const SetbackEdges edges({&planned, 1});
  const SiteBox box({160.0, 0.0}, 90.0, {40.0, 10.0});  // 40 m from the rock
  CHECK(Setbacks(edges, {&planned, 1}, 1.0).kept_by(box, 0xFFF));
  CHECK(Setbacks(edges, {&moved, 1}, 1.0).shortfall(box, 0xFFF) == Approx(5.0));
}
