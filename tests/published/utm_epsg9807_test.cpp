// SPDX-License-Identifier: Apache-2.0
// Universal Transverse Mercator (EPSG coordinate operation method 9807; DMA TM 8358.2, 1989),
// WGS 84. Positions computed with GeographicLib 2.1.2 (GeoConvert), the first also known from
// memory; printed to 1e-4 m. PROJ agrees with the exact form to 1e-6 m.
#include <catch2/catch.hpp>
#include <string>

#include "geoio/geoio.hpp"
#include "support/project.hpp"

using tidelot::LonLat;
using tidelot::utm_crs;
using tidelot::XY;
using tidelot::geoio::projection_factors;
using tidelot::test::project;
using tidelot::test::unproject;

namespace {

constexpr double kMetre = 1e-4;

struct Point {
  LonLat place;
  std::string crs;
  XY grid;
};

const Point kPoints[] = {
    {{44.4, 33.3}, "EPSG:32638", {444140.5449, 3684706.3555}},
    {{-28.5, 41.2}, "EPSG:32626", {374227.8757, 4562043.9143}},
    {{-29.9, 41.0}, "EPSG:32626", {256090.8746, 4542808.5647}},
    {{-70.0, -20.0}, "EPSG:32719", {395390.6762, 7788206.4438}},
    {{6.0, 60.0}, "EPSG:32632", {332705.1789, 6655205.4836}},  // exception zone 32V
    {{-30.0, 41.0}, "EPSG:32626", {247679.1521, 4543092.9544}},
};

}  // namespace

TEST_CASE(
    "Z-05: a position falls in its zone, the exception zone of the Norwegian coast included") {
  for (const Point& point : kPoints) {
    CAPTURE(point.place.lon, point.place.lat);
    CHECK(utm_crs(point.place) == point.crs);
  }
}

TEST_CASE("Z-05: eastings and northings") {
  for (const Point& point : kPoints) {
    CAPTURE(point.place.lon, point.place.lat);
    const XY found = project("EPSG:4326", utm_crs(point.place), point.place);
    CHECK(found.x == Approx(point.grid.x).margin(kMetre));
    CHECK(found.y == Approx(point.grid.y).margin(kMetre));
  }
}

TEST_CASE("Z-05: and back to degrees") {
  for (const Point& point : kPoints) {
    const LonLat found = unproject("EPSG:4326", point.crs, point.grid);
    CHECK(found.lon == Approx(point.place.lon).margin(2e-9));
    CHECK(found.lat == Approx(point.place.lat).margin(2e-9));
  }
}

TEST_CASE("Z-05: a position forced into the neighbouring zone") {
  const XY found = project("EPSG:4326", "EPSG:32625", {-28.5, 41.2});
  CHECK(found.x == Approx(877362.4046).margin(kMetre));
  CHECK(found.y == Approx(4570731.2436).margin(kMetre));
}

TEST_CASE("Z-05: scale and convergence of the grid") {
  const auto found = projection_factors("EPSG:32626", {-28.5, 41.2});
  CHECK(found.scale_min == Approx(0.99979468).margin(2e-8));
  CHECK(found.scale_max == Approx(0.99979468).margin(2e-8));
  CHECK(found.convergence_deg == Approx(-0.98816).margin(5e-6));
}

TEST_CASE("Z-08: web Mercator, and why no area is computed in it") {
  const XY found = project("EPSG:4326", "EPSG:3857", {-28.5, 41.2});
  CHECK(found.x == Approx(-3172605.4876).margin(kMetre));
  CHECK(found.y == Approx(5041886.5262).margin(kMetre));
  CHECK(projection_factors("EPSG:3857", {-28.5, 41.2}).areal_scale == Approx(1.77).margin(0.005));
}
