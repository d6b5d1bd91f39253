// SPDX-License-Identifier: Apache-2.0
// The members' seasons in some cells.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "run/members/members.hpp"

namespace tidelot::run {

/// What each member gives in each cell, [cell * members + member], per metre of line and net of the
/// stocking; 0 without a season.
struct MemberSeasons {
  std::size_t members = 0;
  std::vector<float> yield_g_per_m;
  std::vector<float> nitrogen_g_per_m;
  std::vector<SeasonState> state;

  [[nodiscard]] std::size_t at(std::size_t cell, std::size_t member) const {
    return cell * members + member;
  }
};

/// Every cell's members are grown. places: the cells' centres, in the grid's system.
[[nodiscard]] MemberSeasons grow_members(const KernelForcing& best, std::span<const XY> places,
                                         const Members& members, LayerDraws& draws);

}  // namespace tidelot::run
