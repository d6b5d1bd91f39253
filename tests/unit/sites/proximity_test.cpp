// SPDX-License-Identifier: Apache-2.0
#include "sites/proximity.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "support/scored_bay.hpp"

using namespace tidelot;
using Catch::Matchers::Contains;
using tidelot::test::ScoredBay;

namespace {

NearLayer points(const std::vector<XY>& places, double distance_m, int count, bool closes) {
  ScoredBay bay(1, 1, 1.0);
  bay.add_near("other licences", places, distance_m, count, closes);
  return bay.near[0];
}

std::vector<ShapesNear> found(const NearLayer& layer, const SiteBox& box, double scale) {
  twins::FunctionProjector projector = test::flat_projector(scale);
  return shapes_near(box, {&layer, 1}, projector, test::FlatGeodesy{});
}

bool allowed(const NearLayer& layer, const SiteBox& box, double scale) {
  twins::FunctionProjector projector = test::flat_projector(scale);
  const test::FlatGeodesy geodesy;
  return Proximity({&layer, 1}, scale, projector, geodesy).allows(box);
}

/// From x -20 to 20, y -5 to 5.
const SiteBox kSite({0.0, 0.0}, 90.0, {40.0, 10.0});

}  // namespace

TEST_CASE("shapes within the distance of the edge are counted, the nearest is told") {
  const NearLayer licences =
      points({{49.0, 0.0}, {0.0, 34.0}, {0.0, -36.0}, {900.0, 0.0}}, 30.0, 1, false);
  const ShapesNear here = found(licences, kSite, 1.0).at(0);
  CHECK(here.within == 2);
  CHECK(here.beyond);
  REQUIRE(here.nearest_m);
  CHECK(*here.nearest_m == Approx(29.0));
  // Grid metres that are shorter on the ground bring the third one within the distance.
  CHECK(found(licences, kSite, 1.05).at(0).within == 3);
}

TEST_CASE("a polygon about the site, and one of many edges, each count once") {
  NearLayer layer = points({{900.0, 0.0}}, 30.0, 1, false);
  const Path around{{-500, -500}, {500, -500}, {500, 500}, {-500, 500}, {-500, -500}};
  const Path beside{{25, -5}, {30, -5}, {30, 5}, {25, 5}, {25, -5}};
  layer.features.push_back({Shape{{{around, {}}}, {}, {}}, ""});
  layer.features.push_back({Shape{{{beside, {}}}, {}, {}}, ""});
  const ShapesNear here = found(layer, kSite, 1.0).at(0);
  CHECK(here.within == 2);
  CHECK(*here.nearest_m == 0.0);
  layer.plan.closes = true;
  CHECK_FALSE(allowed(layer, kSite, 1.0));
  layer.plan.count = 2;
  CHECK(allowed(layer, kSite, 1.0));
}

TEST_CASE("without a shape nothing is near") {
  const ShapesNear here = found(points({}, 30.0, 0, true), kSite, 1.0).at(0);
  CHECK(here.within == 0);
  CHECK_FALSE(here.beyond);
  CHECK_FALSE(here.nearest_m);
}

TEST_CASE("a test that only cautions keeps no site off") {
  const NearLayer beach = points({{30.0, 0.0}}, 30.0, 0, false);
  CHECK(found(beach, kSite, 1.0).at(0).beyond);
  CHECK(allowed(beach, kSite, 1.0));
}

TEST_CASE("what closes is what is counted, wherever the site lies") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> place(-200.0, 200.0);
  std::vector<XY> licences;
  for (int i = 0; i < 40; ++i) {
    licences.push_back({place(random), place(random)});
  }
  int refused = 0;
  for (int i = 0; i < 400; ++i) {
    const NearLayer layer = points(licences, 40.0, i % 5, true);
    const SiteBox site({place(random), place(random)}, place(random), {60.0, 15.0});
    const double scale = i % 2 == 0 ? 1.0 : 1.04;
    CHECK(allowed(layer, site, scale) == !found(layer, site, scale).at(0).beyond);
    refused += found(layer, site, scale).at(0).beyond ? 1 : 0;
  }
  CHECK(refused > 50);
  CHECK(refused < 350);
}

TEST_CASE("a site says how many are near, and lies elsewhere where the test closes") {
  ScoredBay bay(60, 40, 10.0);
  bay.plan.sites.count = 1;
  const Site free = bay.place().ranked.at(0);
  CHECK(free.near.empty());
  const XY corner = free.corners_xy[0];
  const std::vector<XY> licences{corner, {corner.x + 1.0, corner.y}};
  bay.add_near("other licences", licences, 30.0, 1, false);
  const Site told = bay.place().ranked.at(0);
  CHECK(told.corners_xy[0].x == corner.x);
  CHECK(told.near.at(0).within == 2);
  CHECK(told.cautions == std::vector<std::string>{"2 within 30 m of: other licences (at most 1)"});
  bay.near[0].plan.closes = true;
  const Site moved = bay.place().ranked.at(0);
  CHECK(moved.corners_xy[0].x != corner.x);
  CHECK(moved.near.at(0).within <= 1);
  CHECK(moved.cautions.empty());
}

TEST_CASE("where it leaves no site, the notes say so") {
  ScoredBay bay(30, 20, 10.0);
  bay.add_near("beaches", {bay.grid.centre(15, 10)}, 5000.0, 0, true);
  const SitesResult none = bay.place();
  CHECK(none.ranked.empty());
  std::string all;
  for (const std::string& note : none.notes) {
    all += note + "\n";
  }
  CHECK_THAT(all, Contains("[[near]]"));
}
