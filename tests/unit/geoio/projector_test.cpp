// SPDX-License-Identifier: Apache-2.0
#include "geoio/projector.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "fixtures.hpp"

using namespace tidelot;
using namespace tidelot::fixtures;
using Catch::Contains;

namespace {

constexpr LonLatBox kBay{-71.0, 41.0, -70.0, 42.0};

XY project(const std::string& from, const std::string& to, XY p) {
  geoio::make_projector(from, to, "depth", kBay)->forward({&p, 1});
  return p;
}

}  // namespace

TEST_CASE("longitude comes first, whatever the registry's axis order") {
  const Folder folder;
  const XY p = project("EPSG:4326", "EPSG:32626", {-28.5, 41.2});
  CHECK(p.x == Approx(374227.8757).epsilon(0).margin(0.001));
  CHECK(p.y == Approx(4562043.9143).epsilon(0).margin(0.001));
  const XY back = project("EPSG:32626", "EPSG:4326", p);
  CHECK(back.x == Approx(-28.5).epsilon(0).margin(1e-9));
  CHECK(back.y == Approx(41.2).epsilon(0).margin(1e-9));
}

TEST_CASE("forward and inverse undo each other, and a clone does the same") {
  const Folder folder;
  const auto projector = geoio::make_projector("EPSG:2249", "EPSG:32619", "depth", kBay);
  const auto copy = projector->clone();
  XY a{700000.0, 3000000.0};
  XY b = a;
  projector->forward({&a, 1});
  copy->forward({&b, 1});
  CHECK(a == b);
  copy->inverse({&b, 1});
  CHECK(b.x == Approx(700000.0).epsilon(0).margin(1e-5));
  CHECK(b.y == Approx(3000000.0).epsilon(0).margin(1e-5));
  CHECK(projector->operation() == copy->operation());
}

TEST_CASE("the operation is named with its accuracy") {
  const Folder folder;
  CHECK(geoio::make_projector("EPSG:4269", "EPSG:4326", "x", kBay)->operation() ==
        "NAD83 to WGS 84 (1), accuracy 4 m");
  CHECK(geoio::make_projector("EPSG:32619", "EPSG:32619", "x", kBay)->operation() == "none needed");
  CHECK_THAT(geoio::make_projector("EPSG:4326", "EPSG:32619", "x", kBay)->operation(),
             Contains("exact"));
  CHECK_THAT(geoio::make_projector("EPSG:4267", "EPSG:4326", "x", kBay)->operation(),
             Contains("NAD27 to WGS 84") && Contains("accuracy 10 m"));
}

TEST_CASE("a point that cannot be projected is not a number, and the others are not disturbed") {
  const Folder folder;
  const auto projector =
      geoio::make_projector("EPSG:4326", "+proj=ortho +lat_0=41 +lon_0=-30", "x", kBay);
  std::vector<XY> points{{150.0, -41.0}, {-30.0, 41.0}, {NAN, 41.0}};
  projector->forward(points);
  CHECK(std::isnan(points[0].x));
  CHECK(std::isnan(points[0].y));
  CHECK(points[1].x == Approx(0.0).margin(1e-6));
  CHECK(std::isnan(points[2].x));
}

TEST_CASE("a system is an EPSG code, WKT or a PROJ string; no file, no address") {
  const Folder folder;
  const std::string bad = GENERATE(
      as<std::string>{}, "", "EPSG:", "EPSG:999999", "http://localhost/crs", "/etc/hostname",
      "crs.wkt", "+proj=longlat +nadgrids=/tmp/a.gsb", "+init=epsg:4326", "WGS 84");
  CAPTURE(bad);
  CHECK_THAT(failure([&] { (void)project(bad, "EPSG:4326", {}); }), Contains("depth"));
}

TEST_CASE("area.crs must be projected, in metres, and not stretch") {
  const Folder folder;
  const auto opener = geoio::make_opener();
  CHECK(opener->metric_crs("EPSG:32626") == "EPSG:32626");
  CHECK(opener->metric_crs("epsg:3035") == "EPSG:3035");
  CHECK(opener->metric_crs("+proj=utm +zone=26 +datum=WGS84") == "EPSG:32626");
  const auto refusal = [&](const std::string& crs) {
    return failure([&] { (void)opener->metric_crs(crs); }, Fault::plan);
  };
  CHECK_THAT(refusal("EPSG:4326"), Contains("area.crs") && Contains("degrees"));
  CHECK_THAT(refusal("EPSG:2249"), Contains("area.crs") && Contains("not in metres"));
  CHECK_THAT(refusal("EPSG:3857"), Contains("area.crs") && Contains("1.8"));
  CHECK_THAT(refusal("EPSG:5703"), Contains("area.crs"));
  CHECK_THAT(refusal("nonsense"), Contains("area.crs"));
  CHECK(opener->crs_name("EPSG:32626") == "WGS 84 / UTM zone 26N (EPSG:32626)");
}

TEST_CASE("versions are told") {
  CHECK_THAT(geoio::gdal_version(), Contains("."));
  CHECK_THAT(geoio::proj_version(), Contains("."));
}
