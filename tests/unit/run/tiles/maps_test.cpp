// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "run/tiles/map_files.hpp"
#include "support/temp_folder.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"

using namespace tidelot;

namespace {

constexpr float kNo = std::numeric_limits<float>::quiet_NaN();

template <typename T>
void fill(std::span<T> map, std::initializer_list<T> values) {
  std::copy(values.begin(), values.end(), map.begin());
}

/// Six cells: outside, land, open, closed by two rules, depth unknown, open but nitrogen unknown.
run::Maps six() {
  run::Maps maps(6);
  fill(maps.reason, {reason::kOutside, reason::kLand, reason::kNothing, reason::kFirstRule,
                     reason::kDepthUnknown, reason::kNitrogenUnknown});
  fill(maps.depth_low_water, {kNo, kNo, 5.0F, 6.0F, kNo, 7.0F});
  fill(maps.suitability, {kNo, kNo, 0.5F, 0.0F, kNo, kNo});
  fill(maps.closed,
       {kClosedNotWater, kClosedNotWater, 0U, 0b11U << closed_bit::kFirstRule, kClosedUnknown, 0U});
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

TEST_CASE("a tile of the maps goes out as bytes and back", "[run]") {
  const Grid grid{0.0, 300.0, 100.0, 4, 3, "EPSG:32625"};
  run::MapChoice choice;
  choice.spread = true;
  choice.open = true;
  choice.lowest = true;
  choice.depth_sources = 2;
  run::Maps maps(grid.size(), choice);
  for (std::size_t i = 0; i < grid.size(); ++i) {
    maps.suitability[i] = static_cast<float>(i);
    maps.closed[i] = static_cast<std::uint32_t>(100 + i);
    maps.reason[i] = static_cast<std::uint8_t>(i);
    maps.spread->confidence[i] = 0.5F;
    maps.open->rules_unknown[i] = 1U;
    maps.depth_source[i] = 1;
  }
  const Tile tile{1, 1, 2, 2};
  const std::vector<std::byte> bytes = maps.bytes_of(grid, tile);
  CHECK(bytes.size() == tile.size() * maps.bytes_a_cell());
  maps.clear(grid, tile);
  CHECK(std::isnan(maps.suitability[grid.index(1, 1)]));
  CHECK(std::isnan(maps.spread->confidence[grid.index(2, 2)]));
  CHECK(maps.closed[grid.index(2, 1)] == 0);
  CHECK(maps.open->rules_unknown[grid.index(2, 1)] == 0);
  CHECK(maps.depth_source[grid.index(1, 2)] == kNoSource);
  CHECK(maps.suitability[grid.index(0, 1)] == 4.0F);  // its neighbours stay
  CHECK(maps.suitability[grid.index(3, 2)] == 11.0F);
  maps.put(grid, tile, bytes);
  for (std::size_t i = 0; i < grid.size(); ++i) {
    CHECK(maps.suitability[i] == static_cast<float>(i));
    CHECK(maps.closed[i] == 100 + i);
    CHECK(maps.reason[i] == i);
    CHECK(maps.spread->confidence[i] == 0.5F);
    CHECK(maps.depth_source[i] == 1);
  }
}

TEST_CASE("maps in a file are there again", "[run]") {
  const test::TempFolder top;
  const Grid grid{0.0, 200.0, 100.0, 3, 2, "EPSG:32625"};
  const Tile all{0, 0, 3, 2};
  {
    run::Maps maps(grid.size(), {}, top / "cells");
    maps.clear(grid, all);
    maps.yield_kg_per_m[5] = 4.0F;
    run::MappedCells::release_all();
  }
  const run::Maps again(grid.size(), {}, top / "cells");
  CHECK(again.yield_kg_per_m[5] == 4.0F);
  CHECK(std::isnan(again.yield_kg_per_m[4]));
}

TEST_CASE("maps that nobody asked for are empty", "[run]") {
  const run::Maps maps(6);
  CHECK(maps.lowest.empty());
  CHECK(maps.axis_deg.empty());
  CHECK(maps.depth_source.empty());
  CHECK_FALSE(maps.spread);
  CHECK_FALSE(maps.open);
}
