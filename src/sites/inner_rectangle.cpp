// SPDX-License-Identifier: Apache-2.0
#include "sites/inner_rectangle.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "criteria/scanline.hpp"

namespace tidelot {
namespace {

using Corners = std::array<XY, 4>;

constexpr int kHalvings = 90;  // of a bracket, by the golden section: to the last digit
/// A corner's height is taken where it gives as much as the search, but for rounding.
constexpr double kAsMuch = 1.0 - 1e-9;

/// Upright, within the heights low and high of an outline.
struct Upright {
  double low = 0.0, high = 0.0;
  Interval x;
  [[nodiscard]] double area() const { return x.empty() ? 0.0 : (high - low) * (x.high - x.low); }
};

Interval width_at(const Corners& corners, double y) {
  Interval x;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    add_band(y, y, corners[i], corners[(i + 1) % corners.size()], x);
  }
  return x;
}

/// The widest one between two heights: a convex outline holds it where it holds both its ends.
Upright between(const Corners& corners, double low, double high) {
  const Interval a = width_at(corners, low);
  const Interval b = width_at(corners, high);
  return {low, high, {std::max(a.low, b.low), std::min(a.high, b.high)}};
}

/// The argument in low..high at which a function with one maximum has it (Kiefer 1953, Proc. Am.
/// Math. Soc. 4:502-506).
template <typename Function>
double best_between(double low, double high, const Function& function) {
  constexpr double kGolden = std::numbers::phi - 1.0;
  double a = high - kGolden * (high - low);
  double b = low + kGolden * (high - low);
  double at_a = function(a);
  double at_b = function(b);
  for (int i = 0; i < kHalvings; ++i) {
    if (at_a >= at_b) {
      high = b;
      b = a;
      at_b = at_a;
      a = high - kGolden * (high - low);
      at_a = function(a);
    } else {
      low = a;
      a = b;
      at_a = at_b;
      b = low + kGolden * (high - low);
      at_b = function(b);
    }
  }
  return (low + high) / 2.0;
}

/// The largest that begins at a height. Areas of those in a convex outline are the product of two
/// concave functions of their heights, so there is one maximum.
Upright largest_from(const Corners& corners, double low, double top) {
  const double high =
      best_between(low, top, [&](double y) { return between(corners, low, y).area(); });
  Upright best = between(corners, low, high);
  for (const XY corner : corners) {
    const Upright at = between(corners, low, corner.y);
    if (corner.y > low && at.area() >= kAsMuch * best.area()) {
      best = at;
    }
  }
  return best;
}

Upright largest_upright(const Corners& corners) {
  Interval y;
  for (const XY corner : corners) {
    y.add(corner.y);
  }
  const double low = best_between(
      y.low, y.high, [&](double from) { return largest_from(corners, from, y.high).area(); });
  Upright best = largest_from(corners, low, y.high);
  for (const XY corner : corners) {
    const Upright at = largest_from(corners, corner.y, y.high);
    if (at.area() >= kAsMuch * best.area()) {
      best = at;
    }
  }
  return best;
}

double half_turn(double bearing_deg) {
  const double turned = std::fmod(bearing_deg, 180.0);
  return turned < 0.0 ? turned + 180.0 : turned;
}

/// With the lines along one of the box's sides, or across it.
InnerRectangle along_side(const SiteBox& box, std::size_t side) {
  const XY way = box.way(side);
  const double bearing = std::atan2(way.x, way.y) * 180.0 / std::numbers::pi;
  const Axes axes(box.centre(), bearing);
  Corners turned{};
  std::transform(box.corners().begin(), box.corners().end(), turned.begin(),
                 [&](XY corner) { return axes.local(corner); });
  const Upright best = largest_upright(turned);
  const double along = best.x.high - best.x.low;
  const double across = best.high - best.low;
  const XY centre = axes.on_grid({(best.x.low + best.x.high) / 2.0, (best.low + best.high) / 2.0});
  return along >= across ? InnerRectangle{centre, half_turn(bearing), {along, across}}
                         : InnerRectangle{centre, half_turn(bearing + 90.0), {across, along}};
}

double area_of(const InnerRectangle& rectangle) {
  return rectangle.size.length_m * rectangle.size.width_m;
}

}  // namespace

InnerRectangle inner_rectangle(const SiteBox& box) {
  InnerRectangle best = along_side(box, 0);
  for (std::size_t side = 1; side < 4; ++side) {
    const InnerRectangle at = along_side(box, side);
    if (kAsMuch * area_of(at) > area_of(best)) {
      best = at;
    }
  }
  return best;
}

}  // namespace tidelot
