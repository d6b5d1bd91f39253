// SPDX-License-Identifier: Apache-2.0
// The water of some cells of a group of tiles, whichever tile they lie in.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "run/tiles/tile_job.hpp"

namespace tidelot::run {

/// Cells are counted row by row over the whole group.
class GroupWater {
 public:
  /// All must live as long.
  GroupWater(const TileGroup& group, std::span<const TileEvidence> evidence,
             const SeasonSetup& setup);

  /// Where a cell of the group stands: its tile, its place there, its place among the tile's grown
  /// cells (kNotGrown: none).
  struct Spot {
    std::uint32_t tile = 0, cell = 0, grown = 0;
  };
  static constexpr std::uint32_t kNotGrown = 0xFFFFFFFFU;
  [[nodiscard]] Spot spot(std::uint32_t cell) const;
  [[nodiscard]] bool known(std::uint32_t cell) const;
  [[nodiscard]] const CellEvidence& evidence(std::uint32_t cell) const;
  /// Forcing of cells that are known, without windows.
  [[nodiscard]] KernelForcing operator()(std::span<const std::uint32_t> cells) const;

 private:
  void put_property(NodeArray KernelForcing::*property, MonthlyTile TileLayers::*layer,
                    std::span<const Spot> spots, KernelForcing& out) const;
  [[nodiscard]] float latitude(const Spot& spot) const {
    return evidence_[spot.tile].latitudes[spot.cell];
  }

  const TileGroup& group_;
  std::span<const TileEvidence> evidence_;
  const SeasonSetup& setup_;
  int side_;                          ///< of a tile, cells
  int across_;                        ///< tiles in a row
  std::vector<std::uint32_t> grown_;  ///< of each cell of the group
  KernelForcing sun_;                 ///< the tables alone
  float low_deg_ = 0.0F, span_deg_ = 0.0F;
};

}  // namespace tidelot::run
