// SPDX-License-Identifier: Apache-2.0
// Where a site and a shape come nearest.
#pragma once

#include "sites/site_box.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/sites/geodesy.hpp"

namespace tidelot {

/// Does a polygon of the shape hold the point?
[[nodiscard]] bool any_contains(const Shape& shape, XY p);

/// Nearest points of a box and a shape, by the grid. A polygon about the centre is at the
/// centre; a shape without points is infinitely far.
[[nodiscard]] NearestPoints nearest_of(const SiteBox& box, const Shape& shape);

/// Shortest way between the two points, m on the ellipsoid.
[[nodiscard]] double true_distance_m(const NearestPoints& nearest, Projector& grid_to_lonlat,
                                     const Geodesy& geodesy);

/// True bearing of a point of the grid from a box's centre, degrees; 0 where they are one.
[[nodiscard]] double bearing_from_centre(const SiteBox& box, XY point, Projector& grid_to_lonlat,
                                         const Geodesy& geodesy);

}  // namespace tidelot
