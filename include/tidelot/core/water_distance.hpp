// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>

#include "tidelot/core/grid.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot {

/// The water of a grid as a net: which of the eight steps from each cell stay on it.
class Waterway {
 public:
  /// Cells with depth > 0 (m, at low water) are water; neighbours by a side that are both water are
  /// joined.
  Waterway(const Grid& grid, std::span<const float> depth);

  /// The same from what is known already: water (1 or 0 a cell), and for each cell whether one can
  /// go to the cell on its right and to the one below it.
  Waterway(Grid grid, GridVector<std::uint8_t> water, std::span<const std::uint8_t> right,
           std::span<const std::uint8_t> below);

  [[nodiscard]] const Grid& grid() const { return grid_; }
  [[nodiscard]] bool water(std::size_t cell) const { return water_[cell] != 0; }

  /// May one go from a cell to the one beside it? Across a corner only where one can also go round
  /// it by one of the two cells there: land that only touches at a corner still shuts a pool in.
  [[nodiscard]] bool open(Cell from, int dx, int dy) const {
    return ((steps_[grid_.index(from.col, from.row)] >> direction(dx, dy)) & 1U) != 0;
  }

  /// The water cell whose centre is nearest to a place, the first in row order on a tie;
  /// grid().size() when there is no water at all.
  [[nodiscard]] std::size_t nearest_water(XY place) const;

 private:
  static unsigned direction(int dx, int dy) {
    const int nth = (dy + 1) * 3 + dx + 1;  // 4 is the cell itself
    return static_cast<unsigned>(nth < 4 ? nth : nth - 1);
  }
  void find_steps(std::span<const std::uint8_t> right, std::span<const std::uint8_t> below);

  Grid grid_;
  GridVector<std::uint8_t> water_;
  GridVector<std::uint8_t> steps_;  ///< one bit a direction
};

/// Shortest way over water from `from` to every cell centre, m on the grid; NaN where none leads
/// there. A start on land begins at the nearest water cell (its distance counted). Any-angle
/// search: a cell is reached straight from its predecessor's predecessor where the line between
/// them stays on water, so lengths are those of taut strings, to within a few per cent. Linear
/// (times log) in the water cells.
[[nodiscard]] GridVector<float> water_distance(const Waterway& way, XY from);

}  // namespace tidelot
