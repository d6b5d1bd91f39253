// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "tidelot/core/error.hpp"
#include "tidelot/layers/opener.hpp"

using tidelot::utm_crs;

TEST_CASE("UTM zones, their edges and both hemispheres") {
  CHECK(utm_crs({-30.06, 41.03}) == "EPSG:32625");
  CHECK(utm_crs({-30.0, 41.0}) == "EPSG:32626");
  CHECK(utm_crs({-28.5, 41.2}) == "EPSG:32626");
  CHECK(utm_crs({-70.0, -20.0}) == "EPSG:32719");
  CHECK(utm_crs({-180.0, 10.0}) == "EPSG:32601");
  CHECK(utm_crs({179.99, 10.0}) == "EPSG:32660");
  CHECK(utm_crs({180.0, 10.0}) == "EPSG:32601");
  CHECK(utm_crs({0.0, 0.0}) == "EPSG:32631");
}

TEST_CASE("the exception zones of the Norwegian coast and Svalbard") {
  CHECK(utm_crs({6.0, 60.0}) == "EPSG:32632");
  CHECK(utm_crs({2.99, 60.0}) == "EPSG:32631");
  CHECK(utm_crs({5.0, 55.99}) == "EPSG:32631");
  CHECK(utm_crs({5.0, 64.0}) == "EPSG:32631");
  CHECK(utm_crs({8.9, 78.0}) == "EPSG:32631");
  CHECK(utm_crs({9.0, 78.0}) == "EPSG:32633");
  CHECK(utm_crs({21.0, 78.0}) == "EPSG:32635");
  CHECK(utm_crs({41.9, 78.0}) == "EPSG:32637");
  CHECK(utm_crs({42.0, 78.0}) == "EPSG:32638");
}

TEST_CASE("there is no UTM zone at the poles") {
  CHECK_THROWS_AS(utm_crs({0.0, 85.0}), tidelot::Error);
  CHECK_THROWS_AS(utm_crs({0.0, -80.5}), tidelot::Error);
}
