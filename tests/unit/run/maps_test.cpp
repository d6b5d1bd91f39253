// SPDX-License-Identifier: Apache-2.0
#include "run/maps.hpp"

#include <catch2/catch.hpp>
#include <limits>

#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"

using namespace tidelot;

namespace {

constexpr float kNo = std::numeric_limits<float>::quiet_NaN();

/// Six cells: outside, land, open, closed by two rules, depth unknown, open but nitrogen unknown.
run::Maps six() {
  run::Maps maps(6);
  maps.reason = {reason::kOutside,   reason::kLand,         reason::kNothing,
                 reason::kFirstRule, reason::kDepthUnknown, reason::kNitrogenUnknown};
  maps.depth_low_water = {kNo, kNo, 5.0F, 6.0F, kNo, 7.0F};
  maps.suitability = {kNo, kNo, 0.5F, 0.0F, kNo, kNo};
  maps.closed = {
      kClosedNotWater, kClosedNotWater, 0, 0b11U << closed_bit::kFirstRule, kClosedUnknown, 0};
  return maps;
}

}  // namespace

TEST_CASE("counts tell land, water, closed, open and unknown apart", "[run]") {
  const Grid grid{0.0, 200.0, 100.0, 3, 2, "EPSG:32625"};
  const RunCounts counts = run::count(six(), grid, 1.0);
  CHECK(counts.cells == 5);
  CHECK(counts.land == 1);
  CHECK(counts.water == 3);
  CHECK(counts.open == 1);
  CHECK(counts.closed == 1);
  CHECK(counts.unknown == 2);
  CHECK(counts.closed_by_bit[closed_bit::kFirstRule] == 1);
  CHECK(counts.closed_by_bit[closed_bit::kFirstRule + 1] == 1);
  CHECK(counts.closed_by_bit[closed_bit::kTooShallow] == 0);
  CHECK(counts.closed_only_by_bit[closed_bit::kFirstRule] == 0);  // the other one closes it too
  CHECK(counts.by_reason[reason::kLand] == 1);
}

TEST_CASE("what one rule closes by itself alone is counted apart", "[run]") {
  const Grid grid{0.0, 200.0, 100.0, 3, 2, "EPSG:32625"};
  run::Maps maps = six();
  for (std::uint32_t& bits : maps.closed) {
    bits = bits == (3U << 8U) ? 1U << 9U : bits;
  }
  const RunCounts counts = run::count(maps, grid, 1.0);
  CHECK(counts.closed_by_bit[9] == 1);
  CHECK(counts.closed_only_by_bit[9] == 1);
  CHECK(counts.closed_only_by_bit[8] == 0);
}

TEST_CASE("hectares are true ones: the grid's areal scale is taken out", "[run]") {
  const Grid grid{0.0, 200.0, 100.0, 3, 2, "EPSG:3857"};
  CHECK(run::count(six(), grid, 1.0).water_ha == Approx(3.0));
  CHECK(run::count(six(), grid, 1.79).water_ha == Approx(3.0 / 1.79));
}
