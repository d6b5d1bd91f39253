// SPDX-License-Identifier: Apache-2.0
#include "land_mask.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr double kLostShare = 0.03;
constexpr int kTileSide = 128;
constexpr std::size_t kCountedCells = std::size_t{1} << 20;

std::size_t water_cells(const std::vector<float>& depth) {
  return static_cast<std::size_t>(
      std::count_if(depth.begin(), depth.end(), [](float d) { return d > 0.0F; }));
}

}  // namespace

void LandMask::dry(const Grid& grid, const Tile& tile, std::span<float> depth_low_water) const {
  if (!mask_.is_given()) {
    return;
  }
  const std::vector<std::uint8_t> inside = mask_.inside(grid, tile);
  for (std::size_t i = 0; i < inside.size(); ++i) {
    const bool land = (inside[i] != 0) != shapes_are_water_;
    if (land && !(depth_low_water[i] <= 0.0F)) {
      depth_low_water[i] = 0.0F;
    }
  }
}

bool close_lines(Shape& shape) {
  for (Path& line : shape.lines) {
    if (line.size() < 4 || line.front().x != line.back().x || line.front().y != line.back().y) {
      return false;
    }
    shape.polygons.push_back({std::move(line), {}});
  }
  shape.lines.clear();
  return shape.points.empty();
}

void warn_of_lost_water(const LandMask& land, LayerFields& fields, const LandPlan& plan,
                        Opening& opening) {
  const auto tiles = tiles_of(opening.grid, kTileSide);
  const std::size_t step = (opening.grid.size() + kCountedCells - 1) / kCountedCells;
  std::size_t before = 0;
  std::size_t after = 0;
  for (std::size_t i = 0; i < tiles.size(); i += step) {
    std::vector<float> depth = fields.sample_depth(opening.grid, tiles[i]);
    before += water_cells(depth);
    land.dry(opening.grid, tiles[i], depth);
    after += water_cells(depth);
  }
  const auto lost = static_cast<double>(before - after);
  if (before > 0 && lost > kLostShare * static_cast<double>(before)) {
    opening.warnings.push_back(fmt::format(
        "land: {}: takes {} % of the water that the depth layer shows; a coastline drawn for a "
        "larger scale does that, compare it with the chart",
        plan.file.written, fixed(100.0 * lost / static_cast<double>(before), 1)));
  }
}

}  // namespace tidelot
