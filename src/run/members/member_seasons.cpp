// SPDX-License-Identifier: Apache-2.0
#include "run/members/member_seasons.hpp"

namespace tidelot::run {

MemberSeasons grow_members(const KernelForcing& best, std::span<const XY> places,
                           const Members& members, LayerDraws& draws) {
  MemberSeasons out;
  out.members = members.size();
  out.yield_g_per_m.resize(best.cells * members.size());
  out.nitrogen_g_per_m.resize(best.cells * members.size());
  out.state.resize(best.cells * members.size(), SeasonState::grows);
  const MemberWater drawn(best, members, draws.at(places));
  KernelForcing water = best;
  for (std::size_t m = 0; m < members.size(); ++m) {
    const SeasonSetup& setup = members.setup(m);
    drawn.put(m, water);
    const auto windows = put_windows(water, setup);
    const KernelResult grown = grow_tile(water, setup.husbandry(), setup.constants());
    for (std::size_t cell = 0; cell < best.cells; ++cell) {
      const std::size_t i = out.at(cell, m);
      out.yield_g_per_m[i] = grown.yield_g_per_m[cell];
      out.nitrogen_g_per_m[i] = grown.nitrogen_g_per_m[cell];
      out.state[i] = windows[cell].state;
    }
  }
  return out;
}

}  // namespace tidelot::run
