// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "tidelot/core/geometry.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/core/grid_vector.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot {

/// Bits of maps/closed.tif.
namespace closed_bit {
inline constexpr int kTooShallow = 0;  ///< too shallow or aground at the lowest tide
inline constexpr int kTooDeep = 1;
inline constexpr int kWaves = 2;
inline constexpr int kCurrent = 3;
inline constexpr int kFirstRule = 8;  ///< plan rules from here on
inline constexpr int kMaxRules = 24;
}  // namespace closed_bit

/// Codes of maps/closed.tif that are not bit sets (bits 4-7 are never set, so they cannot be one).
inline constexpr std::uint32_t kClosedNotWater = 0xFFFFFFFFU;  ///< land, or outside the outline
inline constexpr std::uint32_t kClosedUnknown = 0xFFFFFFFEU;   ///< not known whether gear clears or
                                                               ///< a rule holds

/// Columns first..last of a row.
struct CellRun {
  int row = 0;
  int first = 0;
  int last = 0;
};

/// Every cell whose centre lies within its setback (true metres) of a shape of the
/// standing (to the true edge, not to burnt cells), or that such a shape itself touches: row by
/// row, runs of a row in order and apart.
///
/// scale: length on the grid over length on the ground (PROJ point scale)
/// at the middle of the area. Coordinates are finite. Cost: linear in the rows within reach of the
/// edges and inside the polygons.
[[nodiscard]] GridVector<CellRun> closed_runs(const Grid& grid, std::span<const Feature> features,
                                              Standing standing, double scale);

/// Sets `bit` in every cell of closed_runs. mask: grid.size() values, row by row.
void mark_closed(const Grid& grid, std::span<const Feature> features, Standing standing,
                 double scale, int bit, std::span<std::uint32_t> mask);

}  // namespace tidelot
