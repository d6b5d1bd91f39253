// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>

#include "tidelot/core/grid.hpp"
#include "tidelot/sites/layout.hpp"

namespace tidelot {

/// A rectangle on the grid, all in the grid's metres.
class Rectangle {
 public:
  /// angle_deg: bearing of the long side, clockwise from grid north.
  Rectangle(XY centre, double angle_deg, SiteSize size);
  [[nodiscard]] XY centre() const { return centre_; }
  [[nodiscard]] double half_length() const { return half_length_; }
  [[nodiscard]] double half_width() const { return half_width_; }
  /// Clockwise from the north-most corner, the western one of two.
  [[nodiscard]] const std::array<XY, 4>& corners() const { return corners_; }
  /// Position along (x) and to the right across (y) the long side, from the centre.
  [[nodiscard]] XY local(XY p) const;
  [[nodiscard]] XY on_grid(XY local) const;

 private:
  XY centre_;
  XY along_;   // unit vector of the long side
  XY across_;  // 90 degrees clockwise from it
  double half_length_;
  double half_width_;
  std::array<XY, 4> corners_;
};

/// The two points where a rectangle and a segment come nearest. Where they meet, distance is 0 and
/// both are a common point.
struct NearestPoints {
  double distance_m;
  XY on_rectangle;
  XY on_segment;
};
[[nodiscard]] NearestPoints nearest_points(const Rectangle& rectangle, XY a, XY b);

/// Do they share more than an edge (1e-6 m)?
[[nodiscard]] bool overlap(const Rectangle& a, const Rectangle& b);

/// Between the edges; 0 where they touch or overlap.
[[nodiscard]] double distance_m(const Rectangle& a, const Rectangle& b);

}  // namespace tidelot
