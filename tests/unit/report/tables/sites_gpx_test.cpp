// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <regex>
#include <set>

#include "support/report_fixture.hpp"

namespace tidelot {
namespace {

std::vector<std::string> all_of(const std::string& text, const std::string& pattern) {
  const std::regex wanted(pattern);
  std::vector<std::string> found;
  for (std::sregex_iterator it(text.begin(), text.end(), wanted), end; it != end; ++it) {
    found.push_back((*it)[1]);
  }
  return found;
}

TEST_CASE("waypoints have unique short plain names", "[report]") {
  const test::ReportFixture bay;
  const std::string text = sites_gpx(bay.sites.ranked, bay.plan);
  const auto names = all_of(text, "<wpt [^>]*><name>([^<]*)</name>");
  REQUIRE(names.size() == 25);
  CHECK(std::set<std::string>(names.begin(), names.end()).size() == names.size());
  CHECK(names[0] == "S01");
  CHECK(names[1] == "S01C1");
  for (const std::string& name : names) {
    CHECK(std::regex_match(name, std::regex("[A-Z0-9]{1,10}")));
  }
}

TEST_CASE("one closed route a site, after the waypoints", "[report]") {
  const test::ReportFixture bay;
  const std::string text = sites_gpx(bay.sites.ranked, bay.plan);
  CHECK(all_of(text, "(<rte>)").size() == 5);
  const auto points = all_of(text, "<rtept (lat=\"[^\"]*\" lon=\"[^\"]*\")");
  REQUIRE(points.size() == 25);
  CHECK(points[0] == points[4]);
  CHECK(points[0] != points[1]);
  CHECK(text.rfind("<wpt") < text.find("<rte>"));
}

TEST_CASE("no elevation, no time, no extension", "[report]") {
  const test::ReportFixture bay;
  const std::string text = sites_gpx(bay.sites.ranked, bay.plan);
  for (const char* unwanted : {"<ele", "<time", "<extensions"}) {
    CHECK(text.find(unwanted) == std::string::npos);
  }
  CHECK(text.find("version=\"1.1\"") != std::string::npos);
}

TEST_CASE("a hostile title stays text", "[report]") {
  test::ReportFixture bay;
  bay.plan.title = "a </name><ele>5</ele> & \x01 \"b\"";
  const std::string text = sites_gpx({}, bay.plan);
  CHECK(text.find("<ele") == std::string::npos);
  CHECK(text.find('\x01') == std::string::npos);
  CHECK(text.find("&lt;/name&gt;") != std::string::npos);
  CHECK(text.find("<wpt") == std::string::npos);
}

}  // namespace
}  // namespace tidelot
