// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"

namespace tidelot::run {

/// The plane through values at some spots, by least squares. It goes through three spots that do
/// not lie in a line exactly; of spots in a line it is the plane that is level across them.
class PlaneFit {
 public:
  explicit PlaneFit(std::vector<XY> spots);
  /// What each spot's value counts for at a place. They add up to 1.
  [[nodiscard]] std::vector<double> weights(XY place) const;
  /// The index of the spot nearest to a place, the first of equals.
  [[nodiscard]] std::size_t nearest(XY place) const;

 private:
  [[nodiscard]] std::array<double, 2> about_middle(XY place) const;

  std::vector<XY> spots_;
  XY middle_;
  double reach_ = 1.0;
  std::array<double, 3> inverse_{};  ///< xx, xy, yy of the inverse of the spots' second moments
};

}  // namespace tidelot::run
