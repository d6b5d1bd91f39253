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
  std::optional<Field> ammonium;  ///< given apart: nitrogen is the nitrate alone then
  std::optional<Field> radiation;
  std::optional<Field> axis;  ///< of the current, as in current_axis.hpp
  std::vector<Field> own;
  EdgeRule edge = EdgeRule::half;

  [[nodiscard]] LayerFields clone() const;
  [[nodiscard]] TileLayers sample(const Grid& grid, const Tile& tile);
  [[nodiscard]] std::vector<float> sample_depth(const Grid& grid, const Tile& tile);
};

/// Opens the depth, then the rest, in the order of the plan. The lattices are the fields' own only
/// once the rest is open. They throw Error(input), Error(plan), or gather them.
[[nodiscard]] LayerFields open_depth(const Plan& plan, Opening& opening);
void open_water(const Plan& plan, Opening& opening, LayerFields& fields);

/// Depth at low water in between the two, for as long as both arguments live; none where the depth
/// could not be opened.
[[nodiscard]] DepthOfTile depth_of(LayerFields& fields, Opening& opening);

/// "criteria.NAME"
[[nodiscard]] std::string own_key(const CriterionPlan& criterion);

}  // namespace tidelot
