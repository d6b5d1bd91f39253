// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_positions.hpp"

#include <catch2/catch.hpp>

#include "geoio/geoio.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/sites/positions.hpp"

using namespace tidelot;

namespace {

/// What Printing looks at of an area; no layer is open.
run::Area area_at(LonLat middle) {
  geoio::start();
  run::Area area;
  area.opener = geoio::make_opener();
  area.middle = middle;
  area.corners = {
      LonLat{middle.lon - 0.1, middle.lat + 0.1}, LonLat{middle.lon + 0.1, middle.lat + 0.1},
      LonLat{middle.lon + 0.1, middle.lat - 0.1}, LonLat{middle.lon - 0.1, middle.lat - 0.1}};
  return area;
}

SitesResult one_site(LonLat centre) {
  Site site;
  site.centre = centre;
  const auto corner = [&](double east, double north) {
    return printed_position({centre.lon + east, centre.lat + north});
  };
  site.corners = {corner(-0.001, 0.001), corner(0.001, 0.001), corner(0.001, -0.001),
                  corner(-0.001, -0.001)};
  SitesResult sites;
  sites.ranked = {site};
  return sites;
}

Site printed(LonLat centre, bool nad83) {
  const run::Area area = area_at(centre);
  Plan plan;
  plan.report.nad83 = nad83;
  SitesResult sites = one_site(centre);
  const auto geodesy = geoio::make_geodesy();
  print_position(sites.ranked[0], {}, *geodesy);
  run::Printing(plan, area).print(sites, *geodesy);
  return sites.ranked[0];
}

}  // namespace

TEST_CASE("WGS 84 needs no shift, and UTM follows from the corners as printed") {
  const Site site = printed({-70.4, 41.5}, false);
  CHECK(site.printed.datum == "WGS 84");
  CHECK(site.printed.operation.empty());
  CHECK(site.printed.corners == site.corners);
  CHECK(site.printed.utm_zone == "WGS 84 / UTM zone 19N (EPSG:32619)");
  // GeoConvert of GeographicLib 2.1.2 (-u -p 2): 41.5 -70.4.
  CHECK(site.printed.utm_centre.x == Approx(383150.68).epsilon(0).margin(0.006));
  CHECK(site.printed.utm_centre.y == Approx(4595210.27).epsilon(0).margin(0.006));
}

TEST_CASE("NAD 83 is reached by the operation of the area, which is named with its accuracy") {
  // PROJ 9.1.1: (1) is EPSG:1188 and shifts by nothing; (3), about 21 N 158 W, by half a metre.
  const Site plain = printed({-70.4, 41.5}, true);
  CHECK(plain.printed.datum == "NAD 83");
  CHECK(plain.printed.operation == "Inverse of NAD83 to WGS 84 (1), accuracy 4 m");
  CHECK(plain.printed.corners == plain.corners);
  CHECK(plain.printed.utm_zone == "NAD83 / UTM zone 19N (EPSG:26919)");
  const Site shifted = printed({-157.85, 21.3}, true);
  CHECK(shifted.printed.operation == "Inverse of NAD83 to WGS 84 (3), accuracy 4 m");
  CHECK(shifted.printed.centre == LonLat{-157.849995, 21.300004});
  CHECK(shifted.centre == LonLat{-157.85, 21.3});
}

TEST_CASE("NAD 83 where no operation is known is refused, never guessed") {
  const run::Area area = area_at({-30.05, 41.03});
  Plan plan;
  plan.report.nad83 = true;
  try {
    run::Printing printing(plan, area);
    FAIL("passed");
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::plan);
    CHECK_THAT(error.what(), Catch::StartsWith("report.datum: no operation of known accuracy"));
  }
}

TEST_CASE("zones of NAD 83") {
  CHECK(run::printed_utm({-70.4, 41.5}, true) == "EPSG:26919");
  CHECK(run::printed_utm({-70.4, 41.5}, false) == "EPSG:32619");
  CHECK(run::printed_utm({179.5, 52.0}, true) == "EPSG:3373");
  CHECK(run::printed_utm({173.0, 53.0}, true) == "EPSG:3372");
  CHECK_THROWS_AS(run::printed_utm({10.0, 55.0}, true), Error);
  CHECK_THROWS_AS(run::printed_utm({-70.4, -41.5}, true), Error);
}
