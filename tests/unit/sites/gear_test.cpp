// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/gear.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "sites/site_box.hpp"
#include "support/flat_earth.hpp"
#include "tidelot/sites/sites.hpp"

using namespace tidelot;
using test::FlatGeodesy;

namespace {

constexpr double kRounding_m = 0.15;  // of two positions with six decimals on the flat earth

struct Farm {
  XY centre{1234.0, 5678.0};
  Site site;
  FarmPlan farm;
  double marker_gap_m = 90.0;
  double scale = 1.0;

  /// 1.2 ha at 3:1, margin 15, scope 3, gap 6, 8.1 m at high water.
  explicit Farm(double angle_deg = 33.0, double depth_high_m = 8.1) {
    SitesPlan sites;
    farm.margin_m = 15.0;
    farm.scope = 3.0;
    farm.line_gap_m = 6.0;
    site.size = site_size(sites, farm);
    site.angle_deg = angle_deg;
    site.layout = layout_of(site.size, depth_high_m, farm, false);
  }
  Gear gear() {
    twins::FunctionProjector projector = test::flat_projector(scale);
    const SiteSize on_grid{site.size.length_m * scale, site.size.width_m * scale};
    site.corners_xy = SiteBox(centre, site.angle_deg, on_grid).corners();
    for (std::size_t i = 0; i < 4; ++i) {
      std::array<XY, 1> p{site.corners_xy[i]};
      projector.forward(p);
      site.corners[i] = {std::round(p[0].x * 1e6) / 1e6, std::round(p[0].y * 1e6) / 1e6};
    }
    return farm_gear(site, centre, farm, marker_gap_m, projector, FlatGeodesy{});
  }
};

double apart(const GearPoint& a, const GearPoint& b) {
  return FlatGeodesy{}.distance_m(a.at, b.at);
}

}  // namespace

TEST_CASE("the gear box and the lines of the check sum") {
  Farm farm;
  const Gear gear = farm.gear();
  CHECK(gear.box_length_m == Approx(159.74).margin(0.005));
  CHECK(gear.box_width_m == Approx(33.25).margin(0.005));
  CHECK(gear.box_area_ha == Approx(0.53113).margin(0.002));
  REQUIRE(gear.lines.size() == 6);
  for (const GearLine& line : gear.lines) {
    CHECK(apart(line.ends[0], line.ends[1]) == Approx(111.14).margin(kRounding_m));
    // The anchor legs are 3 times the depth at high water.
    CHECK(apart(line.anchors[0], line.ends[0]) == Approx(24.3).margin(kRounding_m));
    CHECK(apart(line.ends[1], line.anchors[1]) == Approx(24.3).margin(kRounding_m));
    CHECK(apart(line.anchors[0], line.anchors[1]) == Approx(159.74).margin(kRounding_m));
  }
  for (std::size_t i = 1; i < 6; ++i) {
    CHECK(apart(gear.lines[i - 1].ends[0], gear.lines[i].ends[0]) ==
          Approx(6.0).margin(kRounding_m));
  }
}

TEST_CASE("gear lies in the gear box, and that a margin inside the boundary, at any angle") {
  for (const double angle : {0.0, 33.0, 90.0, 171.5}) {
    Farm farm(angle);
    const Gear gear = farm.gear();
    const Axes site(farm.centre, angle);
    for (const GearPoint& corner : gear.box) {
      const XY p = site.local(corner.xy);
      CHECK(farm.site.size.length_m / 2.0 - std::abs(p.x) == Approx(15.0));
      CHECK(farm.site.size.width_m / 2.0 - std::abs(p.y) == Approx(15.0));
    }
    for (const GearLine& line : gear.lines) {
      for (const GearPoint& point :
           {line.ends[0], line.ends[1], line.anchors[0], line.anchors[1]}) {
        const XY p = site.local(point.xy);
        CHECK(std::abs(p.x) <= gear.box_length_m / 2.0 + 1e-6);
        CHECK(std::abs(p.y) <= gear.box_width_m / 2.0 + 1e-6);
      }
    }
  }
}

TEST_CASE("markers stand on every corner and never farther apart than allowed") {
  for (const double gap : {5.0, 45.0, 63.2, 63.5, 90.0, 1000.0}) {
    Farm farm;
    farm.marker_gap_m = gap;
    const Gear gear = farm.gear();
    const auto corners =
        std::count_if(gear.markers.begin(), gear.markers.end(),
                      [](const Marker& m) { return m.kind == Marker::Kind::corner; });
    CHECK(corners == 4);
    CHECK(gear.markers[0].point.at == farm.site.corners[0]);
    double way = 0.0;
    for (std::size_t i = 0; i < gear.markers.size(); ++i) {
      const double step =
          apart(gear.markers[i].point, gear.markers[(i + 1) % gear.markers.size()].point);
      CHECK(step <= gap);
      way += step;
    }
    CHECK(way == Approx(2.0 * (189.74 + 63.25)).margin(2.0));  // round the boundary, once
  }
  Farm farm;
  CHECK(farm.gear().markers.size() == 4 + 2 * 2);  // 189.74 m in three parts, 63.25 m in one
}

TEST_CASE("a site too short for its depth has markers and no gear") {
  Farm farm(33.0, 27.0);
  const Gear gear = farm.gear();
  CHECK(farm.site.layout.usable_m == Approx(-2.26).margin(0.005));
  CHECK(gear.lines.empty());
  CHECK(gear.box_length_m == 0.0);
  CHECK(gear.box_area_ha == 0.0);
  CHECK(gear.markers.size() == 8);
}

TEST_CASE("a single line lies in the middle of a gear box without area") {
  Farm farm;
  SitesPlan sites;
  sites.line = true;
  sites.area_ha = 0.6;
  farm.site.size = site_size(sites, farm.farm);
  farm.site.layout = layout_of(farm.site.size, 8.1, farm.farm, true);
  const Gear gear = farm.gear();
  REQUIRE(gear.lines.size() == 1);
  CHECK(gear.box_width_m == 0.0);
  CHECK(gear.box_area_ha == 0.0);
  CHECK(Axes(farm.centre, 33.0).local(gear.lines[0].ends[0].xy).y == Approx(0.0).margin(1e-9));
}

TEST_CASE("gear is laid out in true metres whatever the scale of the grid") {
  Farm farm;
  farm.scale = 1.25;
  const Gear gear = farm.gear();
  CHECK(apart(gear.lines[0].ends[0], gear.lines[0].ends[1]) == Approx(111.14).margin(kRounding_m));
  CHECK(std::hypot(gear.lines[0].ends[0].xy.x - gear.lines[0].ends[1].xy.x,
                   gear.lines[0].ends[0].xy.y - gear.lines[0].ends[1].xy.y) ==
        Approx(1.25 * farm.site.layout.usable_m));
  CHECK(apart(gear.section[0], gear.section[1]) == Approx(189.74).margin(kRounding_m));
}
