// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/layout.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

TEST_CASE("a box has the area and the proportion asked for") {
  SitesPlan sites;
  sites.area_ha = 1.2;
  sites.length_to_width = 3.0;
  const SiteSize size = site_size(sites, FarmPlan{});
  CHECK(size.length_m * size.width_m == Approx(12000.0));
  CHECK(size.length_m / size.width_m == Approx(3.0));
}

TEST_CASE("a single line is twice the margin wide, and never narrower than a metre") {
  SitesPlan sites;
  sites.line = true;
  sites.area_ha = 0.3;
  FarmPlan farm;
  farm.margin_m = 10.0;
  CHECK(site_size(sites, farm).width_m == 20.0);
  CHECK(site_size(sites, farm).length_m == Approx(150.0));
  farm.margin_m = 0.0;
  CHECK(site_size(sites, farm).width_m == 1.0);
}

TEST_CASE("a site too short for its depth holds nothing") {
  FarmPlan farm;
  farm.margin_m = 10.0;
  farm.scope = 3.0;
  const Layout none = layout_of({80.0, 40.0}, 10.0, farm, false);
  CHECK(none.usable_m == Approx(0.0).margin(1e-12));
  CHECK(none.lines == 0);
  CHECK(none.line_m == 0.0);
  CHECK(none.bundles == 0);
  CHECK(layout_of({80.0, 40.0}, 9.99, farm, false).lines > 0);
}

TEST_CASE("a site narrower than its margins holds no line, but the smallest licence holds one") {
  FarmPlan farm;
  farm.margin_m = 15.0;
  CHECK(layout_of({200.0, 20.0}, 5.0, farm, false).lines == 0);
  CHECK(layout_of({200.0, 30.0}, 5.0, farm, false).lines == 1);
  CHECK(layout_of({200.0, 1.0}, 5.0, farm, true).lines == 1);
}

TEST_CASE("gaps and bundles that fit exactly are not lost to rounding") {
  FarmPlan farm;
  farm.margin_m = 0.0;
  farm.scope = 0.0;
  farm.line_gap_m = 0.1;
  farm.bundle_m = 0.1;
  const Layout layout = layout_of({0.3, 0.3}, 5.0, farm, false);
  CHECK(layout.lines == 4);
  CHECK(layout.bundles == 12);
}
