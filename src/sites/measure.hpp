// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <vector>

#include "sites/field.hpp"
#include "sites/select.hpp"

namespace tidelot {

/// What a site is measured by.
struct Survey {
  const Plan& plan;
  const Grid& grid;
  const ScoredMaps& maps;
  const GroundMap& ground;
  std::span<const ClosedLayer> closed;
  std::span<const NearLayer> near;
  std::span<const std::string> reason_names;
  Projector& grid_to_lonlat;
  const Geodesy& geodesy;
  SiteSize size;  ///< true metres
};

/// Grid length over ground length about the middle of the grid: the geometric mean of two lengths
/// at right angles.
[[nodiscard]] double grid_scale(const Grid& grid, Projector& grid_to_lonlat,
                                const Geodesy& geodesy);

/// Everything but rank and name.
[[nodiscard]] Site measure_site(const Survey& survey, const Placed& place);

/// How near every rule with a shape comes, the nearest first.
[[nodiscard]] std::vector<RuleDistance> rule_distances(const Rectangle& rectangle,
                                                       std::span<const ClosedLayer> closed,
                                                       Projector& grid_to_lonlat,
                                                       const Geodesy& geodesy);

}  // namespace tidelot
