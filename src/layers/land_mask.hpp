// SPDX-License-Identifier: Apache-2.0
// Land that the plan gives as shapes, over what the depth layer says.
#pragma once

#include <span>
#include <vector>

#include "layer_fields.hpp"
#include "outline_mask.hpp"

namespace tidelot {

/// Which cells have their centre on land.
class LandMask {
 public:
  LandMask() = default;  ///< no land beyond the depth layer's
  /// shapes_are_water: land is what lies outside of the features.
  LandMask(const Grid& grid, const std::vector<Feature>& features, bool shapes_are_water)
      : mask_(grid, features), shapes_are_water_(shapes_are_water) {}
  /// Depth 0 (land) where there is land and the layer says water or nothing.
  void dry(const Grid& grid, const Tile& tile, std::span<float> depth_low_water) const;

 private:
  OutlineMask mask_;
  bool shapes_are_water_ = false;
};

/// Rings that were drawn as lines become polygons. False where something else than polygons and
/// closed lines is in the shape.
[[nodiscard]] bool close_lines(Shape& shape);

/// A coarse coastline takes water from a bay that a chart shows: says so when it takes more than
/// 3 % of the depth layer's water (a general coastline was measured to take 7 to 11 % of a real
/// estuary). Counts tiles spread over the grid.
void warn_of_lost_water(const LandMask& land, LayerFields& fields, const LandPlan& plan,
                        Opening& opening);

}  // namespace tidelot
