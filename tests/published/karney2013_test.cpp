// SPDX-License-Identifier: Apache-2.0
// Karney, C. F. F. (2013) Algorithms for geodesics. Journal of Geodesy 87:43-55,
// doi 10.1007/s00190-012-0578-z; WGS 84. How each value is known stands beside it.
#include <catch2/catch.hpp>
#include <vector>

#include "geoio/geoio.hpp"

using tidelot::LonLat;

namespace {

const std::unique_ptr<tidelot::Geodesy> kEarth = tidelot::geoio::make_geodesy();

/// Azimuth of the geodesic from a to b where it arrives.
double arrival_deg(LonLat a, LonLat b) {
  const double back = kEarth->azimuth_deg(b, a);
  return back < 180.0 ? back + 180.0 : back - 180.0;
}

/// Area between a geodesic, the equator and the meridians of its ends (the paper's S12), for ends
/// north of the equator.
double area_to_equator(LonLat a, LonLat b) {
  return kEarth->area_m2(std::vector<LonLat>{{a.lon, 0}, a, b, {b.lon, 0}});
}

/// The degrees below are printed to 11 decimals, about 1e-6 m.
constexpr double kMetre = 2e-6;
constexpr double kDegree = 1e-9;

}  // namespace

TEST_CASE("Z-01: 10 000 km from 40 N at azimuth 30") {
  // The paper's direct example, from memory; all digits computed with GeographicLib 2.1.2.
  const LonLat from{0, 40};
  const LonLat to{137.84490004377, 41.79331020506};
  CHECK(kEarth->distance_m(from, to) == Approx(10e6).margin(kMetre));
  CHECK(kEarth->azimuth_deg(from, to) == Approx(30.0).margin(kDegree));
  CHECK(arrival_deg(from, to) == Approx(149.09016931807).margin(kDegree));
  CHECK(area_to_equator(from, to) == Approx(84275623.42235e6).margin(20.0));  // 1e-5 km2 printed
}

TEST_CASE("Z-02: two rows of the library's own inverse test set") {
  // Published with GeographicLib; recomputed with version 2.1.2. Distances printed to 1e-6 m.
  const LonLat a{-139.44815, 35.60777};
  const LonLat b{-69.95921, -11.17491};
  CHECK(kEarth->distance_m(a, b) == Approx(8935244.560482).margin(kMetre));
  CHECK(kEarth->azimuth_deg(a, b) == Approx(111.098748429560).margin(kDegree));
  CHECK(arrival_deg(a, b) == Approx(129.289270889709).margin(kDegree));
  const LonLat c{106.05087, 55.52454};
  const LonLat d{197.18234, 77.03196};
  CHECK(kEarth->distance_m(c, d) == Approx(4105086.171392).margin(kMetre));
  CHECK(kEarth->azimuth_deg(c, d) == Approx(22.020059880983).margin(kDegree));
  CHECK(arrival_deg(c, d) == Approx(109.112041110672).margin(kDegree));
  CHECK(area_to_equator(c, d) == Approx(61674961290615.6).margin(0.5));
}

TEST_CASE("Z-03: along the equator an azimuth of 90 stays on it") {
  // A row of the library's tests; recomputed.
  CHECK(kEarth->distance_m({0, 0}, {0.99812809346613, 0}) == Approx(111111.1111).margin(1e-4));
  CHECK(kEarth->azimuth_deg({0, 0}, {0.99812809346613, 0}) == Approx(90.0).margin(kDegree));
}

TEST_CASE("Z-04: areas with geodesic edges") {
  // Computed with GeographicLib 2.1.2's Planimeter.
  CHECK(kEarth->area_m2(std::vector<LonLat>{{-30, 40}, {-29, 40}, {-29, 41}, {-30, 41}}) ==
        Approx(9412788745.7).margin(0.1));
  CHECK(kEarth->area_m2(
            std::vector<LonLat>{{-30, 41.00}, {-29.99, 41.00}, {-29.99, 41.01}, {-30, 41.01}}) ==
        Approx(934284.3).margin(0.06));
  // A quarter of a hemisphere: the ellipsoid's 510 065 621 724 088.44 m2 over 8.
  const double octant = kEarth->area_m2(std::vector<LonLat>{{0, 0}, {90, 0}, {0, 90}});
  CHECK(octant == Approx(63758202715511.0).margin(1.0));
  CHECK(octant * 8.0 == Approx(510065621724088.44).margin(4.0));
}

TEST_CASE("the perimeter of a cell of 1 degree at 40 N is the sum of its geodesics") {
  // Computed with Planimeter: 391 616.656366 m.
  const double perimeter =
      kEarth->distance_m({-30, 40}, {-29, 40}) + kEarth->distance_m({-29, 40}, {-29, 41}) +
      kEarth->distance_m({-29, 41}, {-30, 41}) + kEarth->distance_m({-30, 41}, {-30, 40});
  CHECK(perimeter == Approx(391616.656366).margin(2e-6));
}
