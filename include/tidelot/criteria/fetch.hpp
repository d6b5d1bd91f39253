// SPDX-License-Identifier: Apache-2.0
// How far the wind blows over water before it reaches a cell.
#pragma once

#include <cstddef>
#include <span>

#include "tidelot/core/grid.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot {

/// Fetch of every cell of a grid, one direction at a time, in time linear in the cells.
///
/// The grid is cut into parallel lines of cells along the direction, each cell on one of them, and
/// each line is walked once with the wind, counting the water since the last land. Such a line
/// strays less than one cell to the side of the true one through a cell's centre, and a shore is
/// found to half a step (a step is at most 1.42 cells): the fetch is that of a ray less than one
/// cell aside, to within one cell.
class FetchSweep {
 public:
  /// depth: grid.size() values, m, row by row; land is 0 or less; NaN (not known) is taken as water
  /// of no known depth, since land must be known to shelter. The span has to outlive the sweep.
  FetchSweep(const Grid& grid, std::span<const float> depth_m);

  /// from_deg: where the wind comes from, clockwise from the grid's north. beyond_m: fetch that is
  /// added where the line leaves the grid over water. fetch_m: grid.size() values; 0 on land.
  /// mean_depth_m: the mean depth of the line's known water cells up to and with the cell, NaN
  /// where none is known.
  void operator()(double from_deg, double beyond_m, std::span<float> fetch_m,
                  std::span<float> mean_depth_m) const;

 private:
  Grid grid_;
  std::span<const float> depth_m_;
  GridVector<float> turned_;  ///< depth with rows and columns changed
};

/// Effective fetch from radial lengths at equal angles about the wind's direction, symmetric about
/// the middle one: sum x cos a / sum cos a (Saville 1954 as in the Shore Protection Manual 1973 to
/// 1977 with x the radial's length; some authors take its projection instead, which is cos squared
/// above). step_deg: between radials.
[[nodiscard]] double effective_fetch(std::span<const double> radials, double step_deg);

/// The same with the projected lengths x cos a.
[[nodiscard]] double effective_fetch_projected(std::span<const double> radials, double step_deg);

}  // namespace tidelot
