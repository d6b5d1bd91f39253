// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "support/scored_bay.hpp"

using namespace tidelot;
using tidelot::test::ScoredBay;

namespace {

Path box(double west, double south, double east, double north) {
  return {{west, south}, {east, south}, {east, north}, {west, north}, {west, south}};
}

}  // namespace

TEST_CASE("rules are measured, the nearest first, and cautions flagged where they come near") {
  ScoredBay bay(60, 40, 10.0);
  bay.plan.sites.count = 1;
  const XY middle = bay.grid.centre(30, 20);
  bay.add_rule("far buoy", Shape{{}, {}, {{middle.x, middle.y + 5000}}}, 10.0);
  bay.add_rule("public beach", Shape{{}, {{{900, 5020}, {2000, 5020}}}, {}}, 305.0, true);
  bay.add_rule("old pipe", Shape{{}, {{{900, 4500}, {2000, 4501}}}, {}}, 0.0, true);
  bay.add_rule("wreck", Shape{{}, {{{900, 5030}, {2000, 5030}}}, {}}, 10.0, true);
  bay.add_rule("whole bay", Shape{{{box(0, 0, 9000, 9000), {}}}, {}, {}}, 0.0, true);
  bay.add_rule("nowhere", Shape{}, 50.0, true);
  const Site site = bay.place().ranked.at(0);
  REQUIRE(site.rules.size() == 5);
  CHECK(site.rules[0].rule == 4);
  CHECK(site.rules[0].distance_m == 0.0);
  CHECK(site.rules[4].rule == 0);
  CHECK(site.rules[4].bearing_deg < 10.0);
  CHECK(site.rules[4].nearest.lat == Approx((middle.y + 5000) / test::kMetresPerDegree));
  const std::vector<std::string> expected{"caution: whole bay touches the site",
                                          "caution: public beach within 305 m"};
  CHECK(site.cautions == expected);
}
