// SPDX-License-Identifier: Apache-2.0
#include "depth_sign.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace tidelot {
namespace {

constexpr double kNeedsCompany = 0.5;

bool on_land(const WaterTally& found) { return found.land > 0 && found.land >= 19 * found.water; }

bool on_water(const WaterTally& found) { return found.water > found.land; }

OutlineMask mask_of(const Grid& grid, const std::vector<Feature>& features) {
  const bool any = std::any_of(features.begin(), features.end(),
                               [](const Feature& f) { return !f.shape.polygons.empty(); });
  return any ? OutlineMask(grid, features) : OutlineMask();
}

}  // namespace

std::vector<std::string> those_on_land(std::span<const SeaWitness> witnesses) {
  std::vector<std::string> names;
  double land = 0.0;
  double water = 0.0;
  for (const SeaWitness& witness : witnesses) {
    water += on_water(witness.found) ? witness.weight : 0.0;
    if (on_land(witness.found)) {
      names.push_back(witness.what);
      land += witness.weight;
    }
  }
  return land >= 1.0 && land > 2.0 * water ? names : std::vector<std::string>{};
}

SeaWitnesses::SeaWitnesses(const Grid& grid, const std::vector<ClosedLayer>& closed) : grid_(grid) {
  for (const ClosedLayer& rule : closed) {
    std::vector<Cell> cells;
    for (const Feature& feature : rule.features) {
      for (const XY& point : feature.shape.points) {
        if (const Cell cell = grid.cell_of(point); grid.holds(cell)) {
          cells.push_back(cell);
        }
      }
    }
    witnesses_.push_back({fmt::format("\"{}\"", rule.plan.name), kNeedsCompany, {}});
    masks_.push_back(mask_of(grid, rule.features));
    cells_.push_back(std::move(cells));
  }
}

void SeaWitnesses::look_at(const Tile& tile, std::span<const float> depth_low_water) {
  for (std::size_t i = 0; i < witnesses_.size(); ++i) {
    WaterTally& found = witnesses_[i].found;
    if (masks_[i].is_given()) {
      const std::vector<std::uint8_t> inside = masks_[i].inside(grid_, tile);
      for (std::size_t k = 0; k < inside.size(); ++k) {
        if (inside[k] != 0) {
          found.add(depth_low_water[k]);
        }
      }
    }
    for (const Cell& cell : cells_[i]) {
      const int col = cell.col - tile.col0;
      const int row = cell.row - tile.row0;
      if (col >= 0 && col < tile.cols && row >= 0 && row < tile.rows) {
        found.add(depth_low_water[static_cast<std::size_t>(row * tile.cols + col)]);
      }
    }
  }
}

}  // namespace tidelot
