// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "sites/field.hpp"
#include "sites/site_box.hpp"

namespace tidelot {

/// What a site is measured by.
struct Survey {
  const Plan& plan;
  const Grid& grid;
  const ScoredMaps& maps;
  std::span<const ClosedLayer> closed;
  std::span<const NearLayer> near;
  std::span<const std::string> reason_names;
  Projector& grid_to_lonlat;
  const Geodesy& geodesy;
};

/// The rectangle in which a site's layout lies; size in true metres.
struct GearRectangle {
  XY centre;
  double angle_deg = 0.0;  ///< bearing of the long side from grid north, 0..180
  SiteSize size;
};

/// A place to be measured.
struct SitePlace {
  SiteBox box;
  GearRectangle gear;
  std::int64_t score = 0;
  std::array<LonLat, 4> corners{};  ///< of the box, before rounding
};

/// Grid length over ground length about the middle of the grid: the geometric mean of two lengths
/// at right angles.
[[nodiscard]] double grid_scale(const Grid& grid, Projector& grid_to_lonlat,
                                const Geodesy& geodesy);

/// Everything but rank and name. The box's centre lies on the grid.
[[nodiscard]] Site measure_site(const Survey& survey, const SitePlace& place);

/// Ground length between two places of the grid, m.
[[nodiscard]] double ground_length(XY a, XY b, Projector& grid_to_lonlat, const Geodesy& geodesy);

/// "2 within 305 m of: other licences (at most 0)".
[[nodiscard]] std::string too_near(const ShapesNear& found, const NearPlan& test);

/// "12 %", rounded up, so that what is there is never "0 %".
[[nodiscard]] std::string percent_of(double part, double whole);

/// How near every rule with a shape comes, the nearest first.
[[nodiscard]] std::vector<RuleDistance> rule_distances(const SiteBox& box,
                                                       std::span<const ClosedLayer> closed,
                                                       Projector& grid_to_lonlat,
                                                       const Geodesy& geodesy);

}  // namespace tidelot
