// SPDX-License-Identifier: Apache-2.0
#include "sites/site_box.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace tidelot {
namespace {

constexpr double kEdge = 1e-6;  // m; contact along an edge is no overlap
constexpr std::size_t kSides = 4;
constexpr double kInfinity = std::numeric_limits<double>::infinity();

std::size_t next(std::size_t corner) { return (corner + 1) % kSides; }

double cross(XY a, XY b) { return a.x * b.y - a.y * b.x; }

/// Of the corner that the ring begins with: the north-most, the western one of two.
std::size_t first_of(const std::array<XY, 4>& corners) {
  const auto first = std::min_element(corners.begin(), corners.end(), [](XY a, XY b) {
    return std::abs(a.y - b.y) > kEdge ? a.y > b.y : a.x < b.x;
  });
  return static_cast<std::size_t>(first - corners.begin());
}

template <typename Ring>
void begin_with(std::size_t first, Ring& ring) {
  std::rotate(ring.begin(), ring.begin() + static_cast<std::ptrdiff_t>(first), ring.end());
}

/// Centre of the area of a ring, from its first corner so that large coordinates lose nothing.
XY centre_of_area(const std::array<XY, 4>& corners) {
  const XY o = corners[0];
  XY sum{0.0, 0.0};
  double twice = 0.0;
  for (std::size_t i = 2; i < kSides; ++i) {
    const XY a{corners[i - 1].x - o.x, corners[i - 1].y - o.y};
    const XY b{corners[i].x - o.x, corners[i].y - o.y};
    const double area = cross(a, b);
    twice += area;
    sum = {sum.x + area * (a.x + b.x), sum.y + area * (a.y + b.y)};
  }
  return {o.x + sum.x / (3.0 * twice), o.y + sum.y / (3.0 * twice)};
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

/// The first point of a -> b inside of all four sides (Cyrus & Beck 1978, Comput. Graph. 3:23-28);
/// false where there is none.
bool meets(const SiteBox& box, XY a, XY b, XY& common) {
  double t0 = 0.0;
  double t1 = 1.0;
  for (std::size_t side = 0; side < kSides; ++side) {
    const double from = box.inside_m(side, a);
    const double to = box.inside_m(side, b);
    if (from < 0.0 && to < 0.0) {
      return false;
    }
    if (from < 0.0) {
      t0 = std::max(t0, from / (from - to));
    } else if (to < 0.0) {
      t1 = std::min(t1, from / (from - to));
    }
  }
  common = between(a, b, t0);
  return t0 <= t1;
}

/// Nearest points of a box and a segment outside it: an end of the segment or a corner of the box
/// is one of them.
NearestPoints nearest_outside(const SiteBox& box, XY a, XY b) {
  NearestPoints best{kInfinity, {}, {}};
  const auto offer = [&](XY of_box, XY of_segment) {
    const double distance = std::hypot(of_segment.x - of_box.x, of_segment.y - of_box.y);
    if (distance < best.distance_m) {
      best = {distance, of_box, of_segment};
    }
  };
  const std::array<XY, 4>& corners = box.corners();
  for (const XY end : {a, b}) {
    for (std::size_t i = 0; i < kSides; ++i) {
      if (box.inside_m(i, end) < 0.0) {  // the sides that face it
        offer(on_segment(end, corners[i], corners[next(i)]), end);
      }
    }
  }
  for (const XY corner : corners) {
    offer(corner, on_segment(corner, a, b));
  }
  return best;
}

/// Is there a gap along one of a's sides?
bool apart_on_sides_of(const SiteBox& a, const SiteBox& b) {
  for (std::size_t side = 0; side < kSides; ++side) {
    if (std::all_of(b.corners().begin(), b.corners().end(),
                    [&](XY corner) { return a.inside_m(side, corner) <= kEdge; })) {
      return true;
    }
  }
  return false;
}

}  // namespace

Axes::Axes(XY origin, double bearing_deg) : origin_(origin) {
  const double angle = bearing_deg * std::numbers::pi / 180.0;
  along_ = {std::sin(angle), std::cos(angle)};
  across_ = {along_.y, -along_.x};
}

XY Axes::local(XY p) const {
  const double dx = p.x - origin_.x;
  const double dy = p.y - origin_.y;
  return {dx * along_.x + dy * along_.y, dx * across_.x + dy * across_.y};
}

XY Axes::on_grid(XY local) const {
  return {origin_.x + local.x * along_.x + local.y * across_.x,
          origin_.y + local.x * along_.y + local.y * across_.y};
}

SiteBox::SiteBox(XY centre, double angle_deg, SiteSize size)
    : centre_(centre),
      reach_m_(std::hypot(size.length_m, size.width_m) / 2.0),
      core_m_(std::min(size.length_m, size.width_m) / 2.0) {
  const Axes axes(centre, angle_deg);
  const double along = size.length_m / 2.0;
  const double across = size.width_m / 2.0;
  corners_ = {axes.on_grid({along, -across}), axes.on_grid({along, across}),
              axes.on_grid({-along, across}), axes.on_grid({-along, -across})};
  const XY up = Axes({}, angle_deg).on_grid({1.0, 0.0});
  ways_ = {XY{up.y, -up.x}, XY{-up.x, -up.y}, XY{-up.y, up.x}, up};
  const std::size_t first = first_of(corners_);
  begin_with(first, corners_);
  begin_with(first, ways_);
}

SiteBox::SiteBox(const std::array<XY, 4>& corners)
    : centre_(centre_of_area(corners)), corners_(corners), reach_m_(0.0), core_m_(kInfinity) {
  const XY diagonal{corners[2].x - corners[0].x, corners[2].y - corners[0].y};
  const XY other{corners[3].x - corners[1].x, corners[3].y - corners[1].y};
  if (cross(diagonal, other) > 0.0) {
    std::reverse(corners_.begin(), corners_.end());
  }
  begin_with(first_of(corners_), corners_);
  for (std::size_t i = 0; i < kSides; ++i) {
    const XY side{corners_[next(i)].x - corners_[i].x, corners_[next(i)].y - corners_[i].y};
    const double length = std::hypot(side.x, side.y);
    ways_[i] = {side.x / length, side.y / length};
    reach_m_ = std::max(reach_m_, std::hypot(corners_[i].x - centre_.x, corners_[i].y - centre_.y));
    core_m_ = std::min(core_m_, inside_m(i, centre_));
  }
}

std::array<XY, 4> SiteBox::inset(double by_m) const {
  std::array<XY, 4> moved{};
  for (std::size_t i = 0; i < kSides; ++i) {
    const XY in = ways_[(i + kSides - 1) % kSides];
    const XY out = ways_[i];
    const double by = by_m / cross(out, in);
    moved[i] = {corners_[i].x + by * (out.x - in.x), corners_[i].y + by * (out.y - in.y)};
  }
  return moved;
}

NearestPoints nearest_points(const SiteBox& box, XY a, XY b) {
  XY common;
  return meets(box, a, b, common) ? NearestPoints{0.0, common, common} : nearest_outside(box, a, b);
}

bool overlap(const SiteBox& a, const SiteBox& b) {
  return !apart_on_sides_of(a, b) && !apart_on_sides_of(b, a);
}

double distance_m(const SiteBox& a, const SiteBox& b) {
  double distance = kInfinity;
  for (std::size_t i = 0; i < kSides; ++i) {
    distance =
        std::min(distance, nearest_points(a, b.corners()[i], b.corners()[next(i)]).distance_m);
  }
  return overlap(a, b) ? 0.0 : distance;
}

}  // namespace tidelot
