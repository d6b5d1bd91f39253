// SPDX-License-Identifier: Apache-2.0
// Snyder, J. P. (1987) Map Projections - A Working Manual. USGS Professional Paper 1395, numerical
// examples on the Clarke 1866 ellipsoid, through the program's projector. Values from memory,
// recomputed with PROJ; printed to 0.1 m.
#include <catch2/catch.hpp>
#include <string>

#include "support/project.hpp"

using tidelot::XY;
using tidelot::test::project;

namespace {

constexpr double kMetre = 0.06;

/// From degrees on the same ellipsoid, so that no datum comes in.
XY on_clarke_1866(const std::string& projection, tidelot::LonLat place) {
  return project("+proj=longlat +ellps=clrk66 +no_defs",
                 projection + " +ellps=clrk66 +units=m +no_defs", place);
}

}  // namespace

TEST_CASE("Z-06: transverse Mercator") {
  const XY found = on_clarke_1866("+proj=tmerc +lon_0=-75 +k=0.9996", {-73.5, 40.5});
  CHECK(found.x == Approx(127106.5).margin(kMetre));
  CHECK(found.y == Approx(4484124.4).margin(kMetre));
}

TEST_CASE("Z-06: Albers equal-area conic") {
  const XY found =
      on_clarke_1866("+proj=aea +lat_1=29.5 +lat_2=45.5 +lat_0=23 +lon_0=-96", {-75, 35});
  CHECK(found.x == Approx(1885472.7).margin(kMetre));
  CHECK(found.y == Approx(1535925.0).margin(kMetre));
}

TEST_CASE("Z-06: Lambert conformal conic") {
  const XY found = on_clarke_1866("+proj=lcc +lat_1=33 +lat_2=45 +lat_0=23 +lon_0=-96", {-75, 35});
  CHECK(found.x == Approx(1894410.9).margin(kMetre));
  CHECK(found.y == Approx(1564649.5).margin(kMetre));
}
