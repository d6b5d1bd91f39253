// SPDX-License-Identifier: Apache-2.0
#include "sites/along.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "support/scored_bay.hpp"

using namespace tidelot;

namespace {

constexpr float kNan = std::numeric_limits<float>::quiet_NaN();

}  // namespace

TEST_CASE("axes are averaged as axes: 1 and 179 degrees make 0") {
  AxisMean mean;
  CHECK_FALSE(mean.mean());
  mean.add(1.0);
  mean.add(179.0);
  const double around = *mean.mean();
  CHECK(std::min(around, 180.0 - around) == Approx(0.0).margin(1e-4));
  AxisMean east;
  for (const double bearing : {80.0, 280.0, std::nan("")}) {  // 280 runs along 100
    east.add(bearing);
  }
  CHECK(*east.mean() == Approx(90.0).margin(1e-4));
}

TEST_CASE("the degree of a cell is counted from grid north, over the square around it") {
  const Grid grid{0.0, 100.0, 10.0, 10, 10, ""};
  std::vector<float> axis(100, 40.0F);
  axis[0] = kNan;
  const auto degrees = degrees_along(grid, axis, 2.5, {30.0, 10.0});
  CHECK(degrees[0] == 38);  // its neighbours'
  CHECK(degrees[55] == 38);
  const std::vector<float> unknown(100, kNan);
  CHECK(degrees_along(grid, unknown, 0.0, {30.0, 10.0})[55] == -1);
  CHECK(degrees_along(grid, {}, 0.0, {30.0, 10.0}).empty());
  const std::vector<float> north(100, 179.8F);
  CHECK(degrees_along(grid, north, 0.0, {30.0, 10.0})[55] == 0);
}

TEST_CASE("sites lie along the current where it is known, else at the best of the angles tried") {
  test::ScoredBay bay(60, 60, 10.0);
  const SitesResult free = bay.place();
  REQUIRE_FALSE(free.ranked.empty());
  CHECK_FALSE(free.ranked[0].axis_deg);
  bay.axis.assign(bay.grid.size(), 37.0F);
  const SitesResult along = bay.place();
  REQUIRE_FALSE(along.ranked.empty());
  for (const Site& site : along.ranked) {
    CHECK(site.angle_deg == 37.0);
    CHECK(*site.axis_deg == Approx(37.0).margin(1e-4));
  }
  bay.axis.assign(bay.grid.size(), kNan);
  const SitesResult unknown = bay.place();
  REQUIRE(unknown.ranked.size() == free.ranked.size());
  for (std::size_t i = 0; i < free.ranked.size(); ++i) {
    CHECK(unknown.ranked[i].angle_deg == free.ranked[i].angle_deg);
    CHECK(unknown.ranked[i].corners_xy[0].x == free.ranked[i].corners_xy[0].x);
    CHECK_FALSE(unknown.ranked[i].axis_deg);
  }
}
