// SPDX-License-Identifier: Apache-2.0
// The programs GeodSolve and Planimeter of GeographicLib (Karney 2013; Debian: geographiclib-tools)
// against tidelot's lengths, azimuths and areas, over seeded positions. They must be installed: a
// missing program fails the test.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "geoio/geoio.hpp"
#include "support/tool.hpp"

using tidelot::LonLat;
using tidelot::test::run_tool;
using tidelot::test::TempFolder;

namespace {

const std::unique_ptr<tidelot::Geodesy> kEarth = tidelot::geoio::make_geodesy();

/// Positions with 6 decimals, as sites have them.
class Places {
 public:
  LonLat near(LonLat middle, double reach_deg) {
    const double lon = middle.lon + reach_deg * (2.0 * share() - 1.0);
    const double lat = middle.lat + reach_deg * (2.0 * share() - 1.0);
    return {std::round(lon * 1e6) / 1e6, std::round(lat * 1e6) / 1e6};
  }

 private:
  double share() { return static_cast<double>(random_() >> 11) * 0x1p-53; }
  std::mt19937_64 random_{20130101};
};

std::string latitude_first(LonLat place) {
  return fmt::format("{:.6f} {:.6f}", place.lat, place.lon);
}

}  // namespace

TEST_CASE("lengths and azimuths agree with GeodSolve to a micrometre and 1e-8 degrees") {
  Places places;
  std::vector<std::pair<LonLat, LonLat>> pairs;
  std::string input;
  for (int i = 0; i < 400; ++i) {
    const LonLat from = places.near({0, 0}, 80.0);
    const LonLat to = places.near(from, i % 2 == 0 ? 0.02 : 9.0);
    pairs.emplace_back(from, to);
    input += latitude_first(from) + " " + latitude_first(to) + "\n";
  }
  const TempFolder folder;
  const auto answer = run_tool(folder, "GeodSolve -i -p 6", input);
  INFO("GeodSolve (geographiclib-tools): " << answer.text.substr(0, 200));
  REQUIRE(answer.status == 0);
  std::istringstream lines(answer.text);
  for (const auto& [from, to] : pairs) {
    double azimuth = 0.0, arrival = 0.0, distance = 0.0;
    REQUIRE(lines >> azimuth >> arrival >> distance);
    CHECK(kEarth->distance_m(from, to) == Approx(distance).margin(1e-6));
    CHECK(kEarth->azimuth_deg(from, to) ==
          Approx(azimuth < 0 ? azimuth + 360 : azimuth).margin(1e-8));
  }
}

TEST_CASE("areas of sites agree with Planimeter to 0.001 m2") {
  Places places;
  std::vector<std::vector<LonLat>> rings;
  std::string input;
  for (int i = 0; i < 100; ++i) {
    // Corners of a site-like quadrilateral, 100 m to 1 km across, on either hemisphere.
    const LonLat middle = places.near({0, 0}, 70.0);
    const double reach = i % 2 == 0 ? 0.001 : 0.01;
    const LonLat sw{middle.lon - reach, middle.lat - reach};
    rings.push_back({places.near(sw, reach / 2),
                     places.near({sw.lon + 2 * reach, sw.lat}, reach / 2),
                     places.near({sw.lon + 2 * reach, sw.lat + 2 * reach}, reach / 2),
                     places.near({sw.lon, sw.lat + 2 * reach}, reach / 2)});
    for (const LonLat corner : rings.back()) {
      input += latitude_first(corner) + "\n";
    }
    input += "\n";
  }
  const TempFolder folder;
  const auto answer = run_tool(folder, "Planimeter -r -p 6", input);
  INFO("Planimeter (geographiclib-tools): " << answer.text.substr(0, 200));
  REQUIRE(answer.status == 0);
  std::istringstream lines(answer.text);
  for (const auto& ring : rings) {
    double count = 0.0, perimeter = 0.0, area = 0.0;
    REQUIRE(lines >> count >> perimeter >> area);
    REQUIRE(count == 4);
    CHECK(kEarth->area_m2(ring) == Approx(std::fabs(area)).margin(0.001));
  }
}
