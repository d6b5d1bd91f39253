// SPDX-License-Identifier: Apache-2.0
// Members grown at the nodes of a lattice that is as fine as the water asks for, and laid between.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "run/members/members.hpp"
#include "tidelot/growth/crop_model.hpp"

namespace tidelot::run {

/// Six figures of the members: P10, P50, P90 of the yield (g/m, net), then of the nitrogen.
using SpreadFigures = std::array<float, 6>;

/// A block of cells, counted row by row, and what is known of them.
struct MemberGround {
  int cols = 0, rows = 0;
  std::vector<std::uint8_t> wanted;  ///< 1: members are asked for here
  /// Is every property known here, whatever the depth? So it is of all wanted.
  std::function<bool(std::uint32_t)> known;
  /// The best estimate's water in some cells that are known; windows need not be set.
  std::function<KernelForcing(std::span<const std::uint32_t>)> water;
  std::function<XY(std::uint32_t)> place;
  Stocked stocked;  ///< of the best estimate
};

/// What the members give in one cell.
struct MembersHere {
  std::uint32_t cell = 0;
  SpreadFigures figures{};
  /// Yields (g/m, net; NaN: no season) of the members at the places that the cell lies between, in
  /// padded_members() places each, and what each counts for. A grown cell's own alone.
  std::array<const float*, 4> yield_g_per_m{};
  std::array<float, 4> share{};
  float off_g_per_m = 0.0F;  ///< estimate of how far such a member's yield is off; 0: grown
};

/// How often members were grown.
struct LatticeCount {
  std::size_t cells = 0;   ///< wanted
  std::size_t grown = 0;   ///< cells, wanted or not, in which all members were grown
  std::size_t exact = 0;   ///< of the wanted: told by their own members
  std::size_t probes = 0;  ///< seasons grown to see what a change of the water does

  void add(const LatticeCount& other);
};

/// What takes the members of a cell; false: as they lie between others they are not good enough,
/// grow them here (not asked of grown ones).
using TakeMembers = std::function<bool(const MembersHere&)>;

/// Tells the members of every wanted cell, in no order. The six figures are meant to be off by no
/// more than `tolerance` of the crop hauled (P50 and what was stocked; at least what was stocked):
/// estimated for each cell by (1) what the next finer nodes show of the lattice above them, (2) how
/// far the cell's own water lies from that between the nodes, times what such a change does to the
/// crop. Where the estimate says no at the finest lattice the members are grown in the cell.
LatticeCount tell_members(const MemberGround& ground, const Members& members, LayerDraws& draws,
                          double tolerance, const TakeMembers& take);

}  // namespace tidelot::run
