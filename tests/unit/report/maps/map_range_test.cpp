// SPDX-License-Identifier: Apache-2.0
#include "report/maps/map_range.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

namespace tidelot::page {
namespace {

TEST_CASE("a map's range is that of what is known") {
  std::vector<float> yield(700'000, std::nanf(""));  // more than is looked at in one stretch
  yield[3] = 0.25F;
  yield.back() = -1.5F;
  ScoredMaps maps;
  maps.yield_kg_per_m = yield;
  const MapRanges ranges = ranges_of(maps);
  CHECK(ranges.yield_kg_per_m.low == -1.5);
  CHECK(ranges.yield_kg_per_m.high == 0.25);
}

TEST_CASE("a map without a value runs from 0 to 1") {
  const std::vector<float> nothing(10, std::nanf(""));
  ScoredMaps maps;
  maps.nitrogen_g_per_m = nothing;
  for (const MapRange& range :
       {ranges_of(maps).nitrogen_g_per_m, ranges_of(maps).wave_50y_m, RangeSoFar().range()}) {
    CHECK(range.low == 0.0);
    CHECK(range.high == 1.0);
  }
}

TEST_CASE("a round range holds the values and begins at 0, or below it where they do") {
  const MapRange metres = round_range({0.3, 4.1}, 1.0);
  CHECK(metres.low == 0.0);
  CHECK(metres.high == 5.0);
  const MapRange feet = round_range({-0.3, 4.1}, 1.0 / 0.3048);
  CHECK(feet.low / 0.3048 == Approx(-1.0));
  CHECK(feet.high / 0.3048 == Approx(20.0));
}

}  // namespace
}  // namespace tidelot::page
