// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>

#include "tidelot/core/grid.hpp"

namespace tidelot {

/// Lengths and areas on the WGS 84 ellipsoid (Karney 2013, J. Geod. 87:43-55). geoio has the
/// implementation, PROJ's.
class Geodesy {
 public:
  virtual ~Geodesy() = default;
  [[nodiscard]] virtual double distance_m(LonLat a, LonLat b) const = 0;
  /// Initial azimuth from a to b, degrees clockwise from true north, 0..360.
  [[nodiscard]] virtual double azimuth_deg(LonLat a, LonLat b) const = 0;
  /// Area inside a ring of geodesic edges (closed or not, either direction), m2, never negative.
  [[nodiscard]] virtual double area_m2(std::span<const LonLat> ring) const = 0;
};

}  // namespace tidelot
