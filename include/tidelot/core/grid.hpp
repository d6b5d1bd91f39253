// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace tidelot {

/// A position on the earth, degrees, WGS 84, longitude first.
struct LonLat {
  double lon = 0.0;
  double lat = 0.0;
  friend bool operator==(const LonLat&, const LonLat&) = default;
};

/// A position in a projected system, metres, easting first.
struct XY {
  double x = 0.0;
  double y = 0.0;
  friend bool operator==(const XY&, const XY&) = default;
};

/// A block of cells: column and row of its upper-left cell, and its size.
struct Tile {
  int col0 = 0;
  int row0 = 0;
  int cols = 0;
  int rows = 0;
  [[nodiscard]] std::size_t size() const {
    return static_cast<std::size_t>(cols) * static_cast<std::size_t>(rows);
  }
};

/// A cell by column (from the west) and row (from the north).
struct Cell {
  int col = 0;
  int row = 0;
  friend bool operator==(const Cell&, const Cell&) = default;
};

/// The target grid: square cells in a projected system, north up, row 0 in the north.
///
/// Edges: a cell owns its west and its north edge. A point on the grid's east or south edge is
/// outside. All maps of a run share one grid.
struct Grid {
  double west = 0.0;    ///< easting of the left edge, m
  double north = 0.0;   ///< northing of the upper edge, m
  double cell_m = 0.0;  ///< side of a cell, m
  int cols = 0;
  int rows = 0;
  std::string crs;  ///< what PROJ understands, for example "EPSG:32626"

  [[nodiscard]] std::size_t size() const {
    return static_cast<std::size_t>(cols) * static_cast<std::size_t>(rows);
  }
  [[nodiscard]] double east() const { return west + cols * cell_m; }
  [[nodiscard]] double south() const { return north - rows * cell_m; }
  [[nodiscard]] XY centre(int col, int row) const {
    return {west + (col + 0.5) * cell_m, north - (row + 0.5) * cell_m};
  }
  [[nodiscard]] std::size_t index(int col, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) +
           static_cast<std::size_t>(col);
  }
  [[nodiscard]] bool holds(Cell c) const {
    return c.col >= 0 && c.row >= 0 && c.col < cols && c.row < rows;
  }
  /// The cell that owns a point; may lie outside the grid (ask holds()), as a NaN's does.
  [[nodiscard]] Cell cell_of(XY p) const;
};

/// Tiles of at most side x side cells that cover the grid, row by row. Their order is the order of
/// every reduction, so results do not depend on the number of threads.
[[nodiscard]] std::vector<Tile> tiles_of(const Grid& grid, int side);

/// The grid that covers a box, grown outward to whole multiples of cell_m.
/// Throws Error(plan) naming cell_m when it would hold more than max_cells (or more in a row than
/// an int counts), and naming bounds when the box is not finite or turned inside out.
[[nodiscard]] Grid covering_grid(XY lower_left, XY upper_right, double cell_m, std::string crs,
                                 std::size_t max_cells);

}  // namespace tidelot
