// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>

#include "tidelot/core/grid.hpp"
#include "tidelot/sites/layout.hpp"

namespace tidelot {

/// Along a bearing of the grid and to the right across it, about a place.
class Axes {
 public:
  /// bearing_deg: clockwise from grid north.
  Axes(XY origin, double bearing_deg);
  /// Position along (x) and to the right across (y), from the origin.
  [[nodiscard]] XY local(XY p) const;
  [[nodiscard]] XY on_grid(XY local) const;

 private:
  XY origin_;
  XY along_;   // of length 1
  XY across_;  // 90 degrees clockwise from it
};

/// The boundary of a site on the grid: four corners round a convex box, all in the grid's metres.
class SiteBox {
 public:
  /// A rectangle; angle_deg: bearing of the long side, clockwise from grid north. Without a size it
  /// is a place.
  SiteBox(XY centre, double angle_deg, SiteSize size);
  /// Any convex box of four corners in order round it, either way; no side without a length.
  explicit SiteBox(const std::array<XY, 4>& corners);
  /// Of its area.
  [[nodiscard]] XY centre() const { return centre_; }
  /// Clockwise from the north-most corner, the western one of two.
  [[nodiscard]] const std::array<XY, 4>& corners() const { return corners_; }
  /// Bearing of a side as a vector of length 1, from its corner to the next.
  [[nodiscard]] XY way(std::size_t side) const { return ways_[side]; }
  /// How far a point lies inside of the line through a side; outside: below 0.
  [[nodiscard]] double inside_m(std::size_t side, XY p) const {
    return (p.x - corners_[side].x) * ways_[side].y - (p.y - corners_[side].y) * ways_[side].x;
  }
  /// From the centre to the furthest corner.
  [[nodiscard]] double reach_m() const { return reach_m_; }
  /// Radius of the disc about the centre that the box just holds.
  [[nodiscard]] double core_m() const { return core_m_; }
  /// The corners with every side moved inward by so many metres, in the order of corners().
  [[nodiscard]] std::array<XY, 4> inset(double by_m) const;

 private:
  XY centre_;
  std::array<XY, 4> corners_;
  std::array<XY, 4> ways_;
  double reach_m_;
  double core_m_;
};

/// The two points where a box and a segment come nearest. Where they meet, distance is 0 and both
/// are a common point.
struct NearestPoints {
  double distance_m;
  XY on_box;
  XY on_segment;
};
[[nodiscard]] NearestPoints nearest_points(const SiteBox& box, XY a, XY b);

/// Do they share more than an edge (1e-6 m)?
[[nodiscard]] bool overlap(const SiteBox& a, const SiteBox& b);

/// Between the edges; 0 where they touch or overlap.
[[nodiscard]] double distance_m(const SiteBox& a, const SiteBox& b);

}  // namespace tidelot
