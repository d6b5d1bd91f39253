// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/report_fixture.hpp"

namespace tidelot {
namespace {

using nlohmann::json;

double twice_signed_area(const json& ring) {
  double sum = 0.0;
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
    sum += ring[i][0].get<double>() * ring[i + 1][1].get<double>() -
           ring[i + 1][0].get<double>() * ring[i][1].get<double>();
  }
  return sum;
}

TEST_CASE("no sites are an empty collection", "[report]") {
  const json all = json::parse(sites_geojson({}, Plan{}));
  CHECK(all["type"] == "FeatureCollection");
  CHECK(all["features"].empty());
  CHECK(all.contains("crs") == false);  // RFC 7946 knows WGS 84 alone
}

TEST_CASE("rings are closed and counter-clockwise, whichever way the corners run", "[report]") {
  test::ReportFixture bay;
  std::vector<Site> sites{bay.sites.ranked[0], bay.sites.ranked[0]};
  std::reverse(sites[1].corners.begin(), sites[1].corners.end());
  const json all = json::parse(sites_geojson(sites, bay.plan));
  REQUIRE(all["features"].size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    const json& ring = all["features"][i]["geometry"]["coordinates"][0];
    REQUIRE(ring.size() == 5);
    CHECK(ring[0] == ring[4]);
    CHECK(twice_signed_area(ring) > 0.0);
    CHECK(ring[0][0].get<double>() == sites[i].corners[0].lon);
    CHECK(ring[0][1].get<double>() == sites[i].corners[0].lat);
  }
}

TEST_CASE("figures, rules and unknowns of a site", "[report]") {
  test::ReportFixture bay;
  bay.plan.closed[1].name = "<script>alert('x')</script> \xF0\x9F\x8C\x8A";
  bay.sites.ranked[0].suitability = std::nan("");
  const json all = json::parse(sites_geojson(bay.sites.ranked, bay.plan));
  const json& site = all["features"][0]["properties"];
  CHECK(site["name"] == "S01");
  CHECK(site["suitability"].is_null());
  CHECK(site["outplant"] == "05-14");
  CHECK(site["depth_datum"] == "MLLW");
  REQUIRE(site["rules"].size() == 3);
  CHECK(site["rules"][0]["effect"] == "caution");
  CHECK(site["rules"][1]["name"] == bay.plan.closed[1].name);
  CHECK(site["rules"][1]["distance_m"] == 240.0);
}

TEST_CASE("coordinates carry six decimals", "[report]") {
  test::ReportFixture bay;
  bay.sites.ranked[0].corners[2].lon = -30.123456789;
  const std::string text = sites_geojson(bay.sites.ranked, bay.plan);
  CHECK(text.find("-30.123457") != std::string::npos);
  CHECK(text.find("-30.1234567") == std::string::npos);
}

}  // namespace
}  // namespace tidelot
