// SPDX-License-Identifier: Apache-2.0
#include "report/maps/flag_places.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tidelot::page {
namespace {

// view.js does the same anew for every view.
constexpr double kBeside = 28.0;  // px, radius of the first ring
constexpr double kRing = 14.0;    // px between rings
constexpr int kRings = 16;
constexpr int kAngles = 16;
constexpr int kFirstAngle = 14;  // up and right
constexpr double kApart = 3.0;   // px between flags
constexpr double kSite = 10.0;   // px around a centre that stay free

struct Box {
  XY middle;
  double width;
  double height;
};

bool overlap(const Box& a, const Box& b) {
  return std::abs(a.middle.x - b.middle.x) < (a.width + b.width) / 2.0 + kApart &&
         std::abs(a.middle.y - b.middle.y) < (a.height + b.height) / 2.0 + kApart;
}

bool inside(const Box& box, XY size) {
  return box.middle.x >= box.width / 2.0 && box.middle.x <= size.x - box.width / 2.0 &&
         box.middle.y >= box.height / 2.0 && box.middle.y <= size.y - box.height / 2.0;
}

/// The places on a ring, the first one up and right; a wide flag stands further off at the sides.
XY place_on(int ring, int nth, double width) {
  const double angle = 2.0 * std::numbers::pi * ((kFirstAngle + nth) % kAngles) / kAngles;
  const double radius = kBeside + kRing * ring;
  return {std::cos(angle) * (radius + (width - kFlagHeight) / 2.0), std::sin(angle) * radius};
}

}  // namespace

std::vector<XY> flag_places(std::span<const Flagged> sites, XY map_size) {
  std::vector<Box> taken;
  for (const Flagged& site : sites) {
    taken.push_back({site.centre, kSite, kSite});
  }
  std::vector<XY> places;
  for (const Flagged& site : sites) {
    XY best = place_on(0, 0, site.width);
    for (int i = 0; i < kRings * kAngles; ++i) {
      const XY place = place_on(i / kAngles, i % kAngles, site.width);
      const Box box{{site.centre.x + place.x, site.centre.y + place.y}, site.width, kFlagHeight};
      const bool free = std::none_of(taken.begin(), taken.end(),
                                     [&](const Box& other) { return overlap(box, other); });
      if (free && inside(box, map_size)) {
        best = place;
        break;
      }
    }
    taken.push_back({{site.centre.x + best.x, site.centre.y + best.y}, site.width, kFlagHeight});
    places.push_back(best);
  }
  return places;
}

}  // namespace tidelot::page
