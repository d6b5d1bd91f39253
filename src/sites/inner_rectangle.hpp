// SPDX-License-Identifier: Apache-2.0
// The rectangle of gear that a box of any shape holds.
#pragma once

#include "sites/site_box.hpp"

namespace tidelot {

/// A rectangle on the grid, in the grid's metres.
struct InnerRectangle {
  XY centre;
  double angle_deg = 0.0;  ///< bearing of the long side, 0..180
  SiteSize size;           ///< the long side first
};

/// The largest rectangle that lies in the box with two of its sides along one of the box's: of a
/// rectangle itself. The first of the box's sides where several give as much.
[[nodiscard]] InnerRectangle inner_rectangle(const SiteBox& box);

}  // namespace tidelot
