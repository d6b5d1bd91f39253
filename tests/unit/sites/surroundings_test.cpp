// SPDX-License-Identifier: Apache-2.0
#include "sites/surroundings.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "support/scored_bay.hpp"
#include "tidelot/criteria/reason_codes.hpp"

using namespace tidelot;
using tidelot::test::FlatGeodesy;
using tidelot::test::ScoredBay;

namespace {

std::optional<Shore> shore_in(const ScoredBay& bay, const SiteBox& box) {
  twins::FunctionProjector projector = test::flat_projector(bay.scale);
  return shore_of(box, bay.grid, bay.reasons, projector, FlatGeodesy{});
}

/// The shortest way from a rectangle to any cell of land, every one looked at, by points along
/// both edges a fifth of a metre apart.
double by_sampling(const ScoredBay& bay, const Axes& axes, SiteSize size) {
  double least = std::numeric_limits<double>::infinity();
  for (int row = 0; row < bay.grid.rows; ++row) {
    for (int col = 0; col < bay.grid.cols; ++col) {
      if (bay.reasons[bay.grid.index(col, row)] != reason::kLand) {
        continue;
      }
      const XY middle = bay.grid.centre(col, row);
      const double half = bay.grid.cell_m / 2.0;
      for (int step = 0; step <= 50; ++step) {
        const double t = -half + 0.2 * step;
        for (const XY p : {XY{middle.x + t, middle.y - half}, XY{middle.x + t, middle.y + half},
                           XY{middle.x - half, middle.y + t}, XY{middle.x + half, middle.y + t}}) {
          const XY local = axes.local(p);
          least =
              std::min(least, std::hypot(std::max(0.0, std::abs(local.x) - size.length_m / 2.0),
                                         std::max(0.0, std::abs(local.y) - size.width_m / 2.0)));
        }
      }
    }
  }
  return least;
}

}  // namespace

TEST_CASE("from the site's edge to the edge of the nearest cell of land") {
  ScoredBay bay(60, 40, 10.0);
  // The site: 100 x 40 m, its long side to the north, in the middle of cell 30, 20.
  const SiteBox site(bay.grid.centre(30, 20), 0.0, {100.0, 40.0});
  CHECK_FALSE(shore_in(bay, site));
  bay.set_land(bay.grid.index(50, 20));  // 200 m to the east, centre to centre
  const auto shore = shore_in(bay, site);
  REQUIRE(shore);
  CHECK(shore->distance_m == Approx(200.0 - 20.0 - 5.0));
  CHECK(shore->bearing_deg == Approx(90.0).margin(2.0));  // of the point that is nearest
  CHECK(shore->map_ends_nearer);                          // 155 m to the north edge
  bay.set_land(bay.grid.index(30, 30));
  CHECK(shore_in(bay, site)->distance_m == Approx(100.0 - 50.0 - 5.0));
  CHECK(shore_in(bay, site)->bearing_deg == Approx(180.0).margin(4.0));
  CHECK_FALSE(shore_in(bay, site)->map_ends_nearer);
  bay.scale = 1.25;  // metres of the grid are longer than true ones
  CHECK(shore_in(bay, site)->distance_m == Approx(45.0 / 1.25));
}

TEST_CASE("beyond the outline nothing is known of land") {
  ScoredBay bay(60, 40, 10.0);
  const SiteBox site(bay.grid.centre(30, 20), 0.0, {100.0, 40.0});
  bay.set_land(bay.grid.index(40, 20));
  CHECK_FALSE(shore_in(bay, site)->map_ends_nearer);
  bay.reasons[bay.grid.index(38, 20)] = reason::kOutside;
  CHECK(shore_in(bay, site)->map_ends_nearer);
}

TEST_CASE("the search finds what looking everywhere finds") {
  std::mt19937_64 random(7);
  const auto share = [&] { return static_cast<double>(random() >> 11) * 0x1p-53; };
  for (int i = 0; i < 60; ++i) {
    ScoredBay bay(40, 50, 10.0);
    const auto cells = static_cast<double>(bay.grid.size());
    for (int land = 0; land < 1 + i % 7; ++land) {
      bay.set_land(static_cast<std::size_t>(share() * cells));
    }
    const XY centre = bay.grid.centre(5 + i % 30, 5 + i % 40);
    const double angle = 180.0 * share();
    const double length = 20.0 + 150.0 * share();
    const SiteSize size{length, 10.0 + 50.0 * share()};
    const auto shore = shore_in(bay, SiteBox(centre, angle, size));
    REQUIRE(shore);
    CHECK(shore->distance_m == Approx(by_sampling(bay, Axes(centre, angle), size)).margin(0.11));
  }
}

TEST_CASE("landing and marks as seen from the centre") {
  ScoredBay bay(60, 40, 10.0);
  bay.plan.sites.count = 1;
  const Site alone = bay.place().ranked.at(0);
  CHECK_FALSE(alone.landing);
  CHECK(alone.marks.empty());
  bay.plan.sites.landing = LonLat{alone.centre.lon, alone.centre.lat + 0.01};
  bay.plan.report.marks = {{"light", {alone.centre.lon - 0.02, alone.centre.lat}},
                           {"here", alone.centre}};
  const Site site = bay.place().ranked.at(0);
  REQUIRE(site.landing);
  CHECK(site.landing->distance_m == Approx(1000.0));
  CHECK(site.landing->bearing_deg == Approx(0.0).margin(1e-6));
  REQUIRE(site.marks.size() == 2);
  CHECK(site.marks[0].distance_m == Approx(2000.0));
  CHECK(site.marks[0].bearing_deg == Approx(270.0));
  CHECK(site.marks[1].distance_m == 0.0);
  CHECK(site.marks[1].bearing_deg == 0.0);
}
