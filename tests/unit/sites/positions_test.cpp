// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/positions.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/flat_earth.hpp"

using namespace tidelot;
using tidelot::test::FlatGeodesy;

namespace {

/// 200 m to the east, 100 m to the south on the flat earth.
Site some_site() {
  Site site;
  site.corners = {LonLat{-70.4, 41.5}, {-70.398, 41.5}, {-70.398, 41.499}, {-70.4, 41.499}};
  site.centre = {-70.399, 41.4995};
  return site;
}

}  // namespace

TEST_CASE("positions are printed to six decimals of a degree") {
  CHECK(printed_position({-70.12345649, 41.9999996}) == LonLat{-70.123456, 42.0});
}

TEST_CASE("without a shift the printed corners are the site's, with their sides and area") {
  Site site = some_site();
  print_position(site, {}, FlatGeodesy{});
  CHECK(site.printed.datum == "WGS 84");
  CHECK(site.printed.operation.empty());
  CHECK(site.printed.corners == site.corners);
  CHECK(site.printed.centre == site.centre);
  CHECK(site.printed.sides[0].length_m == Approx(200.0));
  CHECK(site.printed.sides[0].bearing_deg == Approx(90.0));
  CHECK(site.printed.sides[1].length_m == Approx(100.0));
  CHECK(site.printed.sides[1].bearing_deg == Approx(180.0));
  CHECK(site.printed.sides[3].bearing_deg == Approx(0.0).margin(1e-6));
  CHECK(site.printed.area_ha == Approx(2.0));
}

TEST_CASE("with a shift everything follows from the corners as they are printed") {
  Site site = some_site();
  twins::FunctionProjector shift{[](XY p) {
                                   return XY{p.x + 0.0000124, p.y - 0.0000026};
                                 },
                                 [](XY p) {
                                   return XY{p.x - 0.0000124, p.y + 0.0000026};
                                 }};
  print_position(site, {"NAD 83", "a shift, accuracy 4 m", &shift}, FlatGeodesy{});
  CHECK(site.printed.datum == "NAD 83");
  CHECK(site.printed.operation == "a shift, accuracy 4 m");
  CHECK(site.printed.corners[0] == printed_position({-70.3999876, 41.4999974}));
  CHECK(site.corners[0] == LonLat{-70.4, 41.5});  // the site itself stays
  CHECK(site.printed.sides[0].length_m ==
        FlatGeodesy{}.distance_m(site.printed.corners[0], site.printed.corners[1]));
  CHECK(site.printed.area_ha == FlatGeodesy{}.area_m2(site.printed.corners) / 1e4);
}

TEST_CASE("UTM follows from the printed corners, to the centimetre") {
  Site site = some_site();
  print_position(site, {}, FlatGeodesy{});
  twins::FunctionProjector to_utm{[](XY p) {
                                    return XY{p.x * 1e5 + 0.123, p.y * 1e5};
                                  },
                                  [](XY p) { return p; }};
  add_utm(site.printed, "zone 19N", to_utm);
  CHECK(site.printed.utm_zone == "zone 19N");
  CHECK(site.printed.utm_corners[0].x == Approx(-7039999.88).epsilon(0).margin(1e-6));
  CHECK(site.printed.utm_corners[0].y == Approx(4150000.0).epsilon(0).margin(1e-6));
  CHECK(site.printed.utm_centre.x == Approx(-7039899.88).epsilon(0).margin(1e-6));
}
