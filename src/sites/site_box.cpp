// SPDX-License-Identifier: Apache-2.0
#include "sites/rectangle.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace tidelot {
namespace {

constexpr double kEdge = 1e-6;  // m; contact along an edge is no overlap

/// Shares t of a -> b with low <= value <= high, cut down one axis at a time (Liang & Barsky 1984,
/// ACM Trans. Graph. 3:1-22).
bool clip_axis(double a, double b, double half, double& t0, double& t1) {
  const double step = b - a;
  if (step == 0.0) {
    return std::abs(a) <= half;
  }
  const double enter = ((step > 0.0 ? -half : half) - a) / step;
  const double leave = ((step > 0.0 ? half : -half) - a) / step;
  t0 = std::max(t0, enter);
  t1 = std::min(t1, leave);
  return t0 <= t1;
}

XY between(XY a, XY b, double t) { return {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}; }

/// Nearest point to p on a segment.
XY on_segment(XY p, XY a, XY b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double square = dx * dx + dy * dy;
  return square > 0.0
             ? between(a, b, std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0))
             : a;
}

/// Nearest points between an upright box about the origin and a segment outside it: an end of the
/// segment or a corner of the box is one of them.
NearestPoints nearest_outside(double half_x, double half_y, XY a, XY b) {
  NearestPoints best{std::numeric_limits<double>::infinity(), {}, {}};
  const auto offer = [&](XY box, XY segment) {
    const double distance = std::hypot(segment.x - box.x, segment.y - box.y);
    if (distance < best.distance_m) {
      best = {distance, box, segment};
    }
  };
  for (const XY end : {a, b}) {
    offer({std::clamp(end.x, -half_x, half_x), std::clamp(end.y, -half_y, half_y)}, end);
  }
  for (const XY corner :
       {XY{half_x, half_y}, XY{half_x, -half_y}, XY{-half_x, -half_y}, XY{-half_x, half_y}}) {
    offer(corner, on_segment(corner, a, b));
  }
  return best;
}

/// Is there a gap along one of a's own axes?
bool apart_on_axes_of(const Rectangle& a, const Rectangle& b) {
  XY low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  XY high{-low.x, -low.y};
  for (const XY corner : b.corners()) {
    const XY p = a.local(corner);
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  return low.x >= a.half_length() - kEdge || high.x <= kEdge - a.half_length() ||
         low.y >= a.half_width() - kEdge || high.y <= kEdge - a.half_width();
}

}  // namespace

Rectangle::Rectangle(XY centre, double angle_deg, SiteSize size)
    : centre_(centre), half_length_(size.length_m / 2.0), half_width_(size.width_m / 2.0) {
  const double angle = angle_deg * std::numbers::pi / 180.0;
  along_ = {std::sin(angle), std::cos(angle)};
  across_ = {along_.y, -along_.x};
  corners_ = {on_grid({half_length_, -half_width_}), on_grid({half_length_, half_width_}),
              on_grid({-half_length_, half_width_}), on_grid({-half_length_, -half_width_})};
  const auto first = std::min_element(corners_.begin(), corners_.end(), [](XY a, XY b) {
    return std::abs(a.y - b.y) > kEdge ? a.y > b.y : a.x < b.x;
  });
  std::rotate(corners_.begin(), first, corners_.end());
}

XY Rectangle::local(XY p) const {
  const double dx = p.x - centre_.x;
  const double dy = p.y - centre_.y;
  return {dx * along_.x + dy * along_.y, dx * across_.x + dy * across_.y};
}

XY Rectangle::on_grid(XY local) const {
  return {centre_.x + local.x * along_.x + local.y * across_.x,
          centre_.y + local.x * along_.y + local.y * across_.y};
}

NearestPoints nearest_points(const Rectangle& rectangle, XY a, XY b) {
  const XY p = rectangle.local(a);
  const XY q = rectangle.local(b);
  double t0 = 0.0;
  double t1 = 1.0;
  if (clip_axis(p.x, q.x, rectangle.half_length(), t0, t1) &&
      clip_axis(p.y, q.y, rectangle.half_width(), t0, t1)) {
    const XY common = between(a, b, t0);
    return {0.0, common, common};
  }
  const NearestPoints nearest =
      nearest_outside(rectangle.half_length(), rectangle.half_width(), p, q);
  return {nearest.distance_m, rectangle.on_grid(nearest.on_rectangle),
          rectangle.on_grid(nearest.on_segment)};
}

bool overlap(const Rectangle& a, const Rectangle& b) {
  return !apart_on_axes_of(a, b) && !apart_on_axes_of(b, a);
}

double distance_m(const Rectangle& a, const Rectangle& b) {
  double distance = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < 4; ++i) {
    const XY from = b.corners()[i];
    const XY to = b.corners()[(i + 1) % 4];
    distance = std::min(distance, nearest_points(a, from, to).distance_m);
  }
  return overlap(a, b) ? 0.0 : distance;
}

}  // namespace tidelot
