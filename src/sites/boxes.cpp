// SPDX-License-Identifier: Apache-2.0
#include "sites/boxes.hpp"

#include <algorithm>

namespace tidelot {

Box box_of(XY a, XY b) {
  return {BoxPoint(std::min(a.x, b.x), std::min(a.y, b.y)),
          BoxPoint(std::max(a.x, b.x), std::max(a.y, b.y))};
}

Box box_of(const SiteBox& box) {
  XY low = box.corners()[0];
  XY high = low;
  for (const XY corner : box.corners()) {
    low = {std::min(low.x, corner.x), std::min(low.y, corner.y)};
    high = {std::max(high.x, corner.x), std::max(high.y, corner.y)};
  }
  return box_of(low, high);
}

Box grown(const Box& box, double by_m) {
  return {BoxPoint(box.min_corner().x() - by_m, box.min_corner().y() - by_m),
          BoxPoint(box.max_corner().x() + by_m, box.max_corner().y() + by_m)};
}

}  // namespace tidelot
