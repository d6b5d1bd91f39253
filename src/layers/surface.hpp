// SPDX-License-Identifier: Apache-2.0
// Values that lie on no pixels: linear in triangles, or one an area.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot {

/// What a cell's centre is worth, from somewhere else than pixels. Nothing of it changes once it is
/// made, so threads share one.
class Surface {
 public:
  virtual ~Surface() = default;
  /// Canonical values at the cell centres of a tile inside the grid, NaN where there is none; out
  /// has tile.size() values. What a cell gets does not depend on the tile it is in.
  virtual void sample(const Grid& grid, const Tile& tile, std::span<float> out) const = 0;
};

/// Linear in each triangle, no value outside of them. A triangle with a corner that is not known
/// (a place or a value that is NaN) is left out. A centre on the edge of two triangles is in one of
/// them, never in none.
[[nodiscard]] std::shared_ptr<const Surface> triangle_surface(
    const Grid& grid, const std::vector<XY>& places, const std::vector<double>& values,
    const std::vector<std::array<std::uint32_t, 3>>& triangles);

/// The value of the area that a centre is in; the lowest where areas lie over each other.
[[nodiscard]] std::shared_ptr<const Surface> area_surface(const Grid& grid,
                                                          const std::vector<Shape>& areas,
                                                          const std::vector<double>& values);

}  // namespace tidelot
