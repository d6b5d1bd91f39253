// SPDX-License-Identifier: Apache-2.0
// The members' seasons in the cells of a tile.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "run/members.hpp"

namespace tidelot::run {

/// What each member gives in each cell, [cell * members + member], per metre of line and net of the
/// stocking; 0 without a season.
struct MemberSeasons {
  std::size_t members = 0;
  std::vector<float> yield_g_per_m;
  std::vector<float> nitrogen_g_per_m;
  std::vector<SeasonState> state;
  std::size_t grown = 0;  ///< cells whose members were grown; the others lie between

  [[nodiscard]] std::size_t at(std::size_t cell, std::size_t member) const {
    return cell * members + member;
  }
};

/// A cell's place in the tile.
struct TileCell {
  int col = 0;
  int row = 0;
};

/// The best estimate of some cells of a tile, and where they lie.
struct GrownCells {
  const KernelForcing& forcing;
  std::span<const SeasonWindow> windows;
  const KernelResult& result;
  Stocked stocked;
  std::span<const TileCell> cells;
  std::span<const XY> places;  ///< centres, in the grid's system
};

/// Every cell's members are grown. places: the cells' centres, in the grid's system.
[[nodiscard]] MemberSeasons grow_members(const KernelForcing& best, std::span<const XY> places,
                                         const Members& members, LayerDraws& draws);

/// Members are grown in few cells of a block and lie between these in the others, as the best
/// estimate goes: a plane through the ratios at the block's outermost cells. A block whose P10, P50
/// or P90 of yield or nitrogen is off by more than `tolerance` of the crop hauled, in two cells
/// that are grown to see, is cut in four; a block of few cells is grown in all. Grown cells are
/// exact.
[[nodiscard]] MemberSeasons spread_members(const GrownCells& best, const Members& members,
                                           LayerDraws& draws, double tolerance);

}  // namespace tidelot::run
