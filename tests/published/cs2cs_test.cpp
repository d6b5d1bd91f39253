// SPDX-License-Identifier: Apache-2.0
// The program cs2cs of PROJ (Debian: proj-bin) against tidelot's projector, over positions drawn by
// a seed: 200 in each of 12 systems, there to 0.5 mm as PROJ's own checks ask, and back. It shares
// PROJ's code; what is checked is which operation is taken and in which order coordinates go.
// TIDELOT_PLACES and TIDELOT_PLACES_SEED make more and others.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "geoio/geoio.hpp"
#include "support/tool.hpp"
#include "tidelot/layers/opener.hpp"

using namespace tidelot;
using tidelot::test::run_tool;
using tidelot::test::TempFolder;

namespace {

constexpr double kMost_m = 0.0005;
constexpr double kMostBack_deg = 1e-8;  // 1 mm: what PROJ itself makes of EPSG:3035, there and back

struct System {
  const char* from;
  const char* to;
  double west, south, east, north;
  bool northing_first;  ///< as the register has it
};
const std::vector<System> kSystems{
    {"EPSG:4326", "EPSG:32626", -30, 1, -24, 80, false},
    {"EPSG:4326", "EPSG:32619", -72, 1, -66, 80, false},
    {"EPSG:4326", "EPSG:32760", 174, -79, 180, -1, false},
    {"EPSG:4326", "EPSG:3857", -179, -80, 179, 80, false},
    {"EPSG:4326", "EPSG:3395", -179, -79, 179, 79, false},
    {"EPSG:4326", "EPSG:3031", -179, -89, 179, -61, false},
    {"EPSG:4326", "EPSG:3413", -179, 61, 179, 89, false},
    {"EPSG:4258", "EPSG:3035", -15, 35, 30, 70, true},
    {"EPSG:4171", "EPSG:2154", -5, 42, 9, 51, false},
    {"EPSG:4277", "EPSG:27700", -7, 50, 1.5, 60, false},
    {"EPSG:4269", "EPSG:26919", -72, 15, -66, 80, false},
    {"EPSG:4269", "EPSG:5070", -124, 25, -68, 49, false},
};

unsigned long number(const char* name, unsigned long otherwise) {
  const char* text = std::getenv(name);
  return text == nullptr ? otherwise : std::strtoul(text, nullptr, 10);
}

std::vector<XY> places_in(const System& system, std::mt19937_64& random) {
  std::uniform_real_distribution<double> lon(system.west, system.east);
  std::uniform_real_distribution<double> lat(system.south, system.north);
  std::vector<XY> out(number("TIDELOT_PLACES", 200));
  for (XY& place : out) {  // of nine decimals, so that both sides are given the same
    place = {std::round(lon(random) * 1e9) / 1e9, std::round(lat(random) * 1e9) / 1e9};
  }
  return out;
}

/// What cs2cs makes of them, easting first.
std::vector<XY> by_cs2cs(const System& system, const std::vector<XY>& places) {
  std::string input;
  for (const XY& place : places) {
    input += fmt::format("{:.9f} {:.9f}\n", place.y, place.x);
  }
  const TempFolder folder;
  const auto answer =
      run_tool(folder, fmt::format("cs2cs -f %.6f {} {}", system.from, system.to), input);
  INFO("cs2cs (proj-bin): " << answer.text.substr(0, 200));
  REQUIRE(answer.status == 0);
  std::istringstream lines(answer.text);
  std::vector<XY> out(places.size());
  for (XY& point : out) {
    double height = 0.0;
    REQUIRE(lines >> point.x >> point.y >> height);
    if (system.northing_first) {
      std::swap(point.x, point.y);
    }
  }
  return out;
}

}  // namespace

TEST_CASE("positions agree with cs2cs to 0.5 mm, and come back") {
  geoio::start();
  const auto opener = geoio::make_opener();
  std::mt19937_64 random(number("TIDELOT_PLACES_SEED", 1));
  for (const System& system : kSystems) {
    const auto projector = opener->projector(system.from, system.to, "test");
    const std::vector<XY> places = places_in(system, random);
    const std::vector<XY> expected = by_cs2cs(system, places);
    std::vector<XY> points = places;
    projector->forward(points);
    double worst_m = 0.0;
    for (std::size_t i = 0; i < places.size(); ++i) {
      worst_m =
          std::max(worst_m, std::hypot(points[i].x - expected[i].x, points[i].y - expected[i].y));
    }
    INFO(system.to << " by " << projector->operation());
    CHECK(worst_m <= kMost_m);
    projector->inverse(points);
    double worst_deg = 0.0;
    for (std::size_t i = 0; i < places.size(); ++i) {
      worst_deg = std::max(
          {worst_deg, std::abs(points[i].x - places[i].x), std::abs(points[i].y - places[i].y)});
    }
    CHECK(worst_deg <= kMostBack_deg);
  }
}
