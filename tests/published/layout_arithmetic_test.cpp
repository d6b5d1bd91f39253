// SPDX-License-Identifier: Apache-2.0
// Check sums of the layout and of the clearance under the gear. Known by arithmetic from common
// practice (no source for the defaults): margin 15 m, after a public notice of a kelp farm whose
// lines stay 50 ft from the marked boundary; anchor legs of 3 times the depth at high water; gear
// must not ground (5 AAC 41.240).
#include <catch2/catch.hpp>

#include "tidelot/criteria/suitability.hpp"
#include "tidelot/sites/layout.hpp"

using namespace tidelot;

namespace {

constexpr double kHectares = 1.2;

SiteSize size_of_1_2_ha() {
  SitesPlan sites;
  sites.area_ha = kHectares;
  sites.length_to_width = 3.0;
  return site_size(sites, FarmPlan{});
}

Layout layout_with(double gap_m, double depth_high_water_m) {
  FarmPlan farm;
  farm.margin_m = 15.0;
  farm.scope = 3.0;
  farm.line_gap_m = gap_m;
  return layout_of(size_of_1_2_ha(), depth_high_water_m, farm, false);
}

FarmPlan gear(double line_depth_m, double sag_m, double hang_m) {
  FarmPlan farm;
  farm.line_depth_m = line_depth_m;
  farm.sag_m = sag_m;
  farm.hang_m = hang_m;
  farm.clearance_m = 1.0;
  return farm;
}

}  // namespace

TEST_CASE("1.2 ha at 3:1 is 189.74 x 63.25 m") {
  // Computed; 0.005 m, the last digit given.
  CHECK(size_of_1_2_ha().length_m == Approx(189.74).margin(0.005));
  CHECK(size_of_1_2_ha().width_m == Approx(63.25).margin(0.005));
}

TEST_CASE("6 m between lines at 8.1 m high water") {
  const Layout layout = layout_with(6.0, 8.1);
  CHECK(layout.usable_m == Approx(111.14).margin(0.005));
  CHECK(layout.lines == 6);
  CHECK(layout.line_m == Approx(666.8).margin(0.05));
  CHECK(layout.line_m / kHectares == Approx(556.0).margin(0.5));
  CHECK(layout.line_m / (159.74 * 33.25 / 1e4) == Approx(1256.0).margin(1.0));  // of the gear box
}

TEST_CASE("9 m between lines at 8.1 m high water") {
  const Layout layout = layout_with(9.0, 8.1);
  CHECK(layout.lines == 4);
  // 4 x 111.1367 = 444.547; the sheet rounds down to 444.5.
  CHECK(layout.line_m == Approx(444.5).margin(0.05));
  CHECK(layout.line_m / kHectares == Approx(370.0).margin(0.5));
  CHECK(layout.line_m / (159.74 * 33.25 / 1e4) == Approx(837.0).margin(1.0));
}

TEST_CASE("27.0 m high water is too deep for it") {
  const Layout layout = layout_with(6.0, 27.0);
  CHECK(layout.usable_m == Approx(-2.26).margin(0.005));
  CHECK(layout.lines == 0);
  CHECK(layout.line_m == 0.0);
}

TEST_CASE("clearance: 5.0 m of water passes with 2.0 m to spare under the gear") {
  const FarmPlan farm = gear(1.0, 0.5, 1.0);
  CHECK(clearance_m(5.0, -0.5, farm) == Approx(2.0).margin(1e-12));
  CHECK(gear_clears(5.0, -0.5, farm));
}

TEST_CASE("clearance: 3.0 m of water with the same gear leaves nothing and is closed") {
  const FarmPlan farm = gear(1.0, 0.5, 1.0);
  CHECK(clearance_m(3.0, -0.5, farm) == Approx(0.0).margin(1e-12));
  CHECK_FALSE(gear_clears(3.0, -0.5, farm));
}

TEST_CASE("clearance: 2.5 m of water passes with light gear") {
  const FarmPlan farm = gear(0.3, 0.3, 0.5);
  CHECK(clearance_m(2.5, -0.3, farm) == Approx(1.1).margin(1e-12));
  CHECK(gear_clears(2.5, -0.3, farm));
}
