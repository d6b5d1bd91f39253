// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/neighbours.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidelot;

namespace {

constexpr FarmShape kShape{600.0, 30.0, 0.5, 12};

/// 200 m by 60 m with lines of 100 m, in 6 m of water, its long side at a bearing.
Site site_at(XY centre, double angle_deg) {
  Site site;
  site.angle_deg = angle_deg;
  site.gear.middle = centre;
  site.layout.usable_m = 100.0;
  site.layout.lines = 6;
  site.depth_min_m = 5.0;
  site.depth_max_m = 7.0;
  return site;
}

Neighbours of(const std::vector<Site>& sites) {
  return neighbours_of(sites, std::vector<FarmShape>(sites.size(), kShape));
}

}  // namespace

TEST_CASE("two sites in line along their axis: each lies in the other's wake, mixed") {
  // North to south 400 m apart: 300 m from gear to gear. Wake 30 + 60 m wide, 0.5 + 3 m deep.
  const Neighbours n = of({site_at({0, 400}, 0.0), site_at({0, 0}, 0.0)});
  CHECK(n.order == std::vector<std::size_t>{1, 0});  // along the axis, the southern first
  REQUIRE(n.paths.size() == 2);
  for (const WaterPath& path : n.paths) {
    CHECK(path.distance_m == Approx(300.0));
    CHECK(path.share == Approx(30.0 * 0.5 / (90.0 * 3.5)));
  }
  CHECK(n.paths[0].from == 0);
  CHECK(n.paths[0].to == 1);
}

TEST_CASE("side by side is not behind; partly behind counts the part that is covered") {
  CHECK(of({site_at({0, 0}, 0.0), site_at({300, 0}, 0.0)}).paths.empty());
  CHECK(of({site_at({0, 0}, 0.0), site_at({300, 400}, 0.0)}).paths.empty());
  const Neighbours half = of({site_at({0, 0}, 0.0), site_at({45, 400}, 0.0)});
  REQUIRE(half.paths.size() == 2);
  CHECK(half.paths[0].share == Approx(0.5 * 30.0 * 0.5 / (90.0 * 3.5)));
  CHECK(of({site_at({0, 0}, 90.0), site_at({400, 0}, 90.0)}).paths.size() == 2);
  CHECK(of({site_at({0, 0}, 90.0), site_at({0, 400}, 90.0)}).paths.empty());
}

TEST_CASE("in shallow water the wake mixes to the bottom and no deeper") {
  Site shallow = site_at({0, 0}, 0.0);
  shallow.depth_min_m = shallow.depth_max_m = 2.0;
  const Neighbours n = of({shallow, site_at({0, 400}, 0.0)});
  REQUIRE(n.paths.size() == 2);
  CHECK(n.paths[0].share == Approx(30.0 * 0.5 / (90.0 * 2.0)));  // from the shallow one
  CHECK(n.paths[1].share == Approx(30.0 * 0.5 / (90.0 * 3.5)));
}

TEST_CASE("shares never pass 1 and distances never fall below 0, at any angles") {
  for (double a = 0.0; a < 180.0; a += 15.0) {
    for (double b = 0.0; b < 180.0; b += 15.0) {
      for (const XY at : {XY{150, 150}, XY{-30, 220}, XY{500, -90}}) {
        for (const WaterPath& path : of({site_at({0, 0}, a), site_at(at, b)}).paths) {
          CAPTURE(a, b, at.x, at.y);
          CHECK(path.share <= 1.0);
          CHECK(path.share >= 0.01);
          CHECK(path.distance_m >= 0.0);
        }
      }
    }
  }
}

TEST_CASE("long sides a hair west and east of north are one axis") {
  const Neighbours n = of({site_at({0, 0}, 178.0), site_at({0, 400}, 2.0)});
  CHECK(n.paths.size() == 2);
  CHECK(of({}).order.empty());
  CHECK(of({site_at({0, 0}, 30.0)}).paths.empty());
}
