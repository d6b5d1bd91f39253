// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <string>

#include "geoio/geoio.hpp"
#include "tidelot/core/error.hpp"

using tidelot::Error;
using tidelot::Fault;
using tidelot::geoio::projection_factors;

namespace {

std::string refusal(const std::string& crs, tidelot::LonLat place) {
  try {
    (void)projection_factors(crs, place);
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::plan);
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("on a UTM zone's central meridian the scale is 0.9996 and grid north is true north") {
  const auto found = projection_factors("EPSG:32626", {-27, 41});
  // PROJ differentiates in steps: its extremes part by some 1e-8.
  CHECK(found.scale_min == Approx(0.9996).epsilon(1e-7));
  CHECK(found.scale_max == Approx(0.9996).epsilon(1e-7));
  CHECK(found.areal_scale == Approx(0.9996 * 0.9996).epsilon(1e-9));
  CHECK(found.convergence_deg == Approx(0.0).margin(1e-9));
}

TEST_CASE(
    "west of the central meridian grid north lies west of true north, south of the equator "
    "east") {
  CHECK(projection_factors("EPSG:32626", {-29, 41}).convergence_deg < -1.0);
  CHECK(projection_factors("EPSG:32626", {-25, 41}).convergence_deg > 1.0);
  CHECK(projection_factors("EPSG:32726", {-29, -41}).convergence_deg > 1.0);
}

TEST_CASE("neither the order of the axes nor their unit changes the scale") {
  // EPSG:3035 lists northing before easting and keeps areas; EPSG:2263 is in US survey feet.
  const auto equal_area = projection_factors("EPSG:3035", {5, 50});
  CHECK(equal_area.areal_scale == Approx(1.0).epsilon(1e-8));
  CHECK(equal_area.scale_min < 0.9999);
  CHECK(equal_area.scale_max > 1.0001);
  CHECK(projection_factors("EPSG:2263", {-74, 40.5}).areal_scale == Approx(1.0).epsilon(1e-3));
}

TEST_CASE("a system may be given as a PROJ string") {
  const auto found = projection_factors("+proj=utm +zone=26 +datum=WGS84 +units=m", {-28.5, 41.2});
  CHECK(found.areal_scale ==
        Approx(projection_factors("EPSG:32626", {-28.5, 41.2}).areal_scale).epsilon(1e-12));
}

TEST_CASE("what has no scale is refused, naming the system") {
  CHECK(refusal("EPSG:4326", {-30, 41}).find("EPSG:4326") != std::string::npos);
  CHECK(refusal("seven seas", {-30, 41}).find("seven seas") != std::string::npos);
  CHECK(refusal("EPSG:32626", {150, 0}).find("150") != std::string::npos);
}
