// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/geodesy.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <vector>

#include "geoio/geoio.hpp"

using tidelot::LonLat;

namespace {

const std::unique_ptr<tidelot::Geodesy> kEarth = tidelot::geoio::make_geodesy();

std::vector<LonLat> square() { return {{-30, 41}, {-29.9, 41}, {-29.9, 41.1}, {-30, 41.1}}; }

}  // namespace

TEST_CASE("a distance to itself is 0 and has no direction") {
  CHECK(kEarth->distance_m({-30, 41}, {-30, 41}) == 0.0);
  CHECK(kEarth->azimuth_deg({-30, 41}, {-30, 41}) == 0.0);
}

TEST_CASE("longitude comes first: a degree of longitude is the shorter one away from the equator") {
  const double east = kEarth->distance_m({-30, 60}, {-29, 60});
  const double north = kEarth->distance_m({-30, 60}, {-30, 61});
  CHECK(east < 0.51 * north);
}

TEST_CASE("azimuths run clockwise from true north, 0 to 360") {
  const LonLat here{-30, 41};
  CHECK(kEarth->azimuth_deg(here, {-30, 42}) == Approx(0.0).margin(1e-9));
  CHECK(kEarth->azimuth_deg(here, {-29.99, 41}) == Approx(90.0).margin(0.01));
  CHECK(kEarth->azimuth_deg(here, {-30, 40}) == Approx(180.0));
  CHECK(kEarth->azimuth_deg(here, {-30.01, 41}) == Approx(270.0).margin(0.01));
}

TEST_CASE("distances are the same both ways and over the 180th meridian") {
  CHECK(kEarth->distance_m({-30, 41}, {-29, 40}) == kEarth->distance_m({-29, 40}, {-30, 41}));
  CHECK(kEarth->distance_m({179.99, 10}, {-179.99, 10}) ==
        Approx(kEarth->distance_m({0, 10}, {0.02, 10})).epsilon(1e-12));
}

TEST_CASE("an area does not depend on the ring's direction, its start, or its being closed") {
  const std::vector<LonLat> ring = square();
  const double area = kEarth->area_m2(ring);
  auto closed = ring;
  closed.push_back(ring.front());
  auto reversed = ring;
  std::reverse(reversed.begin(), reversed.end());
  auto turned = ring;
  std::rotate(turned.begin(), turned.begin() + 1, turned.end());
  CHECK(area > 0.0);
  CHECK(kEarth->area_m2(closed) == Approx(area).epsilon(1e-12));
  CHECK(kEarth->area_m2(reversed) == Approx(area).epsilon(1e-12));
  CHECK(kEarth->area_m2(turned) == Approx(area).epsilon(1e-12));
}

TEST_CASE("a ring without an inside has no area") {
  CHECK(kEarth->area_m2({}) == 0.0);
  CHECK(kEarth->area_m2(std::vector<LonLat>{{-30, 41}}) == 0.0);
  CHECK(kEarth->area_m2(std::vector<LonLat>{{-30, 41}, {-29, 41}}) == Approx(0.0).margin(1e-3));
}

TEST_CASE("an area over the 180th meridian is that of the same ring elsewhere") {
  const std::vector<LonLat> across{{179.9, 41}, {-179.9, 41}, {-179.9, 41.1}, {179.9, 41.1}};
  const std::vector<LonLat> same{{9.9, 41}, {10.1, 41}, {10.1, 41.1}, {9.9, 41.1}};
  CHECK(kEarth->area_m2(across) == Approx(kEarth->area_m2(same)).epsilon(1e-9));
}

TEST_CASE("a position that is not known gives a length that is not known") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(std::isnan(kEarth->distance_m({nan, 41}, {-30, 41})));
}
