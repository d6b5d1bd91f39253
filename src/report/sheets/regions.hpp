// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"

/// Cells of one class as areas with an outline.
namespace tidelot::sheet {

/// A corner of cells: column and row of the cell to its lower right.
struct Corner {
  int col = 0;
  int row = 0;
  friend bool operator==(const Corner&, const Corner&) = default;
};
/// A closed ring along the edges of cells, turning at every corner; the first is not repeated.
using Ring = std::vector<Corner>;

/// The outlines of all cells of cols x rows (row by row) whose code is `wanted`, holes too: filled
/// by the even-odd rule they give the cells back. Cells that touch at a corner alone lie in
/// different rings.
[[nodiscard]] std::vector<Ring> outlines(int cols, int rows, std::span<const std::uint8_t> codes,
                                         std::uint8_t wanted);

/// Where a label of width x height cells stands best in the cells of a code: the middle of the
/// cell farthest from every other code or edge, and how far that is, in cells (0: no such cell).
struct Middle {
  double col = 0.0;
  double row = 0.0;
  double reach = 0.0;
};
[[nodiscard]] Middle middle_of(int cols, int rows, std::span<const std::uint8_t> codes,
                               std::uint8_t wanted);

}  // namespace tidelot::sheet
