// SPDX-License-Identifier: Apache-2.0
// Every field of a plan.
#pragma once

#include <optional>
#include <vector>

#include "depth_layers.hpp"
#include "field.hpp"
#include "raster_field.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// All that can be sampled; independent of every other copy.
struct LayerFields {
  std::vector<Lattice> lattices;
  DepthLayers depth;
  Field temperature, salinity, attenuation, nitrogen, current;
  std::optional<Field> radiation;
  std::optional<Field> axis;  ///< of the current, as in current_axis.hpp
  std::vector<Field> own;
  EdgeRule edge = EdgeRule::half;

  [[nodiscard]] LayerFields clone() const;
  [[nodiscard]] TileLayers sample(const Grid& grid, const Tile& tile);
  [[nodiscard]] std::vector<float> sample_depth(const Grid& grid, const Tile& tile);
};

/// Opens them in the order of the plan. Throws Error(input), Error(plan).
[[nodiscard]] LayerFields open_fields(const Plan& plan, Opening& opening);

/// "criteria.NAME"
[[nodiscard]] std::string own_key(const CriterionPlan& criterion);

}  // namespace tidelot
