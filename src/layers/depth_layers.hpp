// SPDX-License-Identifier: Apache-2.0
// Depth at low water, from one file or from several in the order of trust.
#pragma once

#include <cstdint>
#include <vector>

#include "field.hpp"
#include "raster_field.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// Depths of a tile.
struct DepthTile {
  std::vector<float> low_water;      ///< m, positive down; NaN unknown
  std::vector<float> share;          ///< MonthlyTile::share of the source that counts
  std::vector<std::uint8_t> source;  ///< counted from 0, kNoSource where unknown; empty: one file
};

/// All files of depths; independent of every other copy.
struct DepthLayers {
  struct Source {
    Field depth;      ///< below the file's zero
    Field low_water;  ///< of the low-water datum above the file's zero
    double feather_m = 0.0;
  };
  std::vector<Source> sources;  ///< the most trusted first

  [[nodiscard]] DepthLayers clone() const;
  /// The first source with a value, or, near the edge of a source that is feathered, a mixture: its
  /// share rises from 0 to 1 over feather_m of distance to the nearest cell that it does not cover
  /// (centre to centre, inside the grid).
  [[nodiscard]] DepthTile sample(TileSampler& sampler);
};

/// Opens them in the order of the plan. Throws Error(input), Error(plan).
[[nodiscard]] DepthLayers open_depth(const DepthPlan& plan, Opening& opening);

}  // namespace tidelot
