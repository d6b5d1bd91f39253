// SPDX-License-Identifier: Apache-2.0
// What else the plan knows of where the water is, held against the sign of the depths.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "outline_mask.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

/// Of cells or places: how many the depths call water and how many land.
struct WaterTally {
  std::size_t water = 0;
  std::size_t land = 0;

  void add(float depth_low_water) {
    water += depth_low_water > 0.0F ? 1 : 0;
    land += depth_low_water <= 0.0F ? 1 : 0;
  }
};

/// Something that belongs into the water, as "stations of water.nitrogen". weight 1 doubts a
/// sign by itself; one half needs company.
struct SeaWitness {
  std::string what;
  double weight = 1.0;
  WaterTally found;
};

/// The witnesses that lie on land (19 in 20 of what they hold), where they cast doubt on the sign
/// of the depths: together they weigh 1 or more, and more than twice as much as those that lie with
/// more than half on water. Empty where there is no doubt. Shapes drawn over bay and shore alike
/// are no witnesses for land.
[[nodiscard]] std::vector<std::string> those_on_land(std::span<const SeaWitness> witnesses);

/// Counts closed areas tile by tile. Of weight one half each: one that lies ashore may be meant to
/// (its setback reaches into the water, or the file holds those of a whole country). A landing lies
/// on the shore and says nothing.
class SeaWitnesses {
 public:
  SeaWitnesses(const Grid& grid, const std::vector<ClosedLayer>& closed);
  void look_at(const Tile& tile, std::span<const float> depth_low_water);
  [[nodiscard]] const std::vector<SeaWitness>& all() const { return witnesses_; }

 private:
  const Grid& grid_;
  std::vector<SeaWitness> witnesses_;
  std::vector<OutlineMask> masks_;        ///< of each witness; not given: it has no polygons
  std::vector<std::vector<Cell>> cells_;  ///< of each witness: those of its points
};

}  // namespace tidelot
