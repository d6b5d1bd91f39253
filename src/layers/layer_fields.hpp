// SPDX-License-Identifier: Apache-2.0
// Every field of a plan.
#pragma once

#include <optional>
#include <vector>

#include "field.hpp"
#include "raster_field.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// All that can be sampled; independent of every other copy.
struct LayerFields {
  std::vector<Lattice> lattices;
  Field depth;      ///< below the layer's zero
  Field low_water;  ///< of the low-water datum above the layer's zero
  Field temperature, salinity, attenuation, nitrogen, current;
  std::optional<Field> radiation;
  std::vector<Field> own;
  EdgeRule edge = EdgeRule::half;

  [[nodiscard]] LayerFields clone() const;
  [[nodiscard]] TileLayers sample(const Grid& grid, const Tile& tile);
  [[nodiscard]] std::vector<float> sample_depth(const Grid& grid, const Tile& tile);

 private:
  [[nodiscard]] std::vector<float> depth_low_water(TileSampler& sampler, std::span<float> share);
};

/// Opens them in the order of the plan. Throws Error(input), Error(plan).
[[nodiscard]] LayerFields open_fields(const Plan& plan, Opening& opening);

/// "criteria.NAME"
[[nodiscard]] std::string own_key(const CriterionPlan& criterion);

}  // namespace tidelot
