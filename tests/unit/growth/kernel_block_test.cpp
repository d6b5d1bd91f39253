// SPDX-License-Identifier: Apache-2.0
#include "growth/kernel_block.hpp"

#include <catch2/catch.hpp>
#include <memory>

#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

NodeArray counted(std::size_t cells, std::size_t rows) {
  NodeArray array{{}, rows == 1};
  for (std::size_t i = 0; i < cells * rows; ++i) {
    array.values.push_back(static_cast<float>(i));
  }
  return array;
}

}  // namespace

TEST_CASE("the last block is filled up with cells that have no season") {
  const KernelConstants k =
      kernel_constants(alga_constants(built_in_crop("warm-red-alga")), Husbandry{});
  KernelForcing f;
  f.cells = kBlockCells + 2;
  f.temperature = counted(f.cells, kMonths);
  f.salinity = f.attenuation = f.nitrogen = counted(f.cells, kMonths);
  f.current = counted(f.cells, 1);
  f.latitude_weight.assign(f.cells, 0.25F);
  f.outplant.assign(f.cells, 100);
  f.last_haul.assign(f.cells, 200);
  const auto block = std::make_unique<KernelBlock>();
  fill_block(f, k, kBlockCells, *block);
  CHECK(block->nodes[kTemperature][0][1] == static_cast<float>(kBlockCells + 1));
  CHECK(block->nodes[kTemperature][1][0] == static_cast<float>(f.cells + kBlockCells));
  CHECK(block->nodes[kTemperature][1][2] == block->nodes[kTemperature][1][0]);
  CHECK(block->nodes[kCurrent][0][1] == static_cast<float>(kBlockCells + 1));
  CHECK(block->first_day[1] == 100.0F);
  CHECK(block->last_day[1] == 200.0F);
  CHECK(block->last_day[2] < block->first_day[2]);
  CHECK(block->weight[5] == 100.0F);
  CHECK(block->hauled[0] == 0.0F);
}

TEST_CASE("a canopy at the surface has no water above it") {
  const AlgaConstants c = alga_constants(built_in_crop("warm-red-alga"));
  Husbandry husbandry;
  husbandry.line_depth_m = 0.1;
  CHECK(kernel_constants(c, husbandry).canopy.top_depth == 0.0F);
  husbandry.line_depth_m = 1.25;
  CHECK(kernel_constants(c, husbandry).canopy.top_depth == Approx(1.442695));
}

TEST_CASE("salinity becomes lines, flat beyond the ends") {
  const KernelConstants k =
      kernel_constants(alga_constants(built_in_crop("warm-red-alga")), Husbandry{});
  CHECK(k.salinity.before == 0.0F);
  REQUIRE(k.salinity.lines.size() == 5);
  CHECK(k.salinity.lines[0].slope == Approx(0.07));
  CHECK(k.salinity.lines[0].start == Approx(-0.7));
  CHECK(k.salinity.lines[4].slope == 0.0F);
  CHECK(k.salinity.lines[4].start == 0.0F);
}
