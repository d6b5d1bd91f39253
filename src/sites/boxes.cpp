// SPDX-License-Identifier: Apache-2.0
#include "sites/boxes.hpp"

#include <algorithm>

namespace tidelot {

Box box_of(XY a, XY b, double grown) {
  return {BoxPoint(std::min(a.x, b.x) - grown, std::min(a.y, b.y) - grown),
          BoxPoint(std::max(a.x, b.x) + grown, std::max(a.y, b.y) + grown)};
}

Box box_of(const SiteBox& box) {
  XY low = box.corners()[0];
  XY high = low;
  for (const XY corner : box.corners()) {
    low = {std::min(low.x, corner.x), std::min(low.y, corner.y)};
    high = {std::max(high.x, corner.x), std::max(high.y, corner.y)};
  }
  return box_of(low, high, 0.0);
}

}  // namespace tidelot
