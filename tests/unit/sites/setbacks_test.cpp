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

Path box(double west, double south, double east, double north) {
  return {{west, south}, {east, south}, {east, north}, {west, north}, {west, south}};
}

ClosedLayer rock(double setback_m, bool caution) {
  ClosedLayer layer;
  layer.plan.setback_m = setback_m;
  layer.plan.caution = caution;
  layer.features = {{Shape{{}, {}, {{100.0, 0.0}}}, ""}};
  return layer;
}

bool kept(const ClosedLayer& layer, double scale, double x) {
  return Setbacks({&layer, 1}, scale).kept_by(Rectangle({x, 0.0}, 90.0, {40.0, 10.0}));
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
  ScoredBay bay(40, 40, 10.0);
  bay.plan.sites.area_ha = 0.5;
  bay.plan.farm.margin_m = 5.0;
  bay.plan.farm.scope = 1.0;
  bay.plan.sites.count = 8;
  bay.plan.sites.gap_m = 0.0;
  const Path rock = box(1195, 4795, 1205, 4805);
  bay.add_rule("rock", Shape{{{rock, {}}}, {}, {}}, 33.0);
  const SitesResult result = bay.place();
  REQUIRE(result.ranked.size() == 8);
  for (const Site& site : result.ranked) {
    REQUIRE(site.rules.size() == 1);
    CHECK(site.rules[0].distance_m >= 33.0 - 1e-5);
    const Ring ring = ring_of(Path(site.corners_xy.begin(), site.corners_xy.end()));
    CHECK(site.rules[0].distance_m == Approx(bg::distance(ring, ring_of(rock))));
  }
}
