// SPDX-License-Identifier: Apache-2.0
#include "geoio/vector_shape.hpp"

#include <catch2/catch.hpp>
#include <memory>
#include <stdexcept>
#include <string>

#include "geoio/projector.hpp"

using namespace tidelot;

namespace {

Shape shape_of(const std::string& wkt) {
  OGRGeometry* read = nullptr;
  REQUIRE(OGRGeometryFactory::createFromWkt(wkt.c_str(), nullptr, &read) == OGRERR_NONE);
  const std::unique_ptr<OGRGeometry> geometry(read);
  const auto projector =
      geoio::make_projector("EPSG:4326", "EPSG:32625", "key", {-31.0, 40.0, -29.0, 42.0}, false);
  return geoio::project_shape(*geometry, *projector, true);
}

}  // namespace

TEST_CASE("a polygon without a ring is no polygon") {
  CHECK(shape_of("POLYGON EMPTY").empty());
  const Shape mixed =
      shape_of("GEOMETRYCOLLECTION(POLYGON EMPTY,MULTIPOLYGON(EMPTY),POINT(-30 41))");
  CHECK(mixed.polygons.empty());
  CHECK(mixed.points.size() == 1);
}

TEST_CASE("a point without coordinates and a line without vertices are none") {
  CHECK(shape_of("POINT EMPTY").empty());
  CHECK(shape_of("LINESTRING EMPTY").empty());
}

TEST_CASE("a ring around a hole and its kind are kept") {
  const Shape shape = shape_of(
      "POLYGON((-30 41,-30 41.01,-29.99 41.01,-30 41),(-30 41.004,-29.999 41.005,-30 41.005,"
      "-30 41.004))");
  REQUIRE(shape.polygons.size() == 1);
  CHECK(shape.polygons[0].holes.size() == 1);
  CHECK(shape.polygons[0].outer.front() == shape.polygons[0].outer.back());
}

TEST_CASE("a ring that is left open is closed") {
  const Shape shape = shape_of(
      "GEOMETRYCOLLECTION(MULTIPOLYGON(((-30 41,-30 41.01,-29.99 41.01),(-30 41.004,-29.999 "
      "41.005,-30 41.005))))");
  REQUIRE(shape.polygons.size() == 1);
  CHECK(shape.polygons[0].outer.front() == shape.polygons[0].outer.back());
  CHECK(shape.polygons[0].holes[0].front() == shape.polygons[0].holes[0].back());
}
