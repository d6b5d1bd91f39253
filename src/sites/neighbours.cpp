// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/neighbours.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace tidelot {
namespace {

constexpr double kSideways = 0.1;    // a wake's growth per metre of its way, to each side
constexpr double kDownwards = 0.01;  // and in depth
constexpr double kLeastShare = 0.01;
constexpr double kRadian = std::numbers::pi / 180.0;

double dot(XY a, XY b) { return a.x * b.x + a.y * b.y; }

/// Along a bearing of the grid.
XY along(double bearing_rad) { return {std::sin(bearing_rad), std::cos(bearing_rad)}; }

/// A site's gear on the grid.
struct GearSpan {
  XY centre;
  XY axis;          ///< of length 1, within 90 degrees of the bay's
  double length_m;  ///< of one line
  double width_m;   ///< across the lines
  double canopy_m;  ///< depth of the water that passes it
  double bottom_m;  ///< mean depth at low water
};

/// Mean direction of the long sides, which have no front: the half of the mean of doubled angles.
XY bay_axis(std::span<const Site> sites) {
  XY sum{0.0, 0.0};
  for (const Site& site : sites) {
    const XY doubled = along(2.0 * site.angle_deg * kRadian);
    sum = {sum.x + doubled.x, sum.y + doubled.y};
  }
  return along(0.5 * std::atan2(sum.x, sum.y));
}

GearSpan gear_of(const Site& site, const FarmShape& shape, XY bay) {
  XY axis = along(site.angle_deg * kRadian);
  if (dot(axis, bay) < 0.0) {
    axis = {-axis.x, -axis.y};
  }
  return {
      site.gear.middle,     axis,
      site.layout.usable_m, shape.width_m,
      shape.depth_m,        std::max(shape.depth_m, (site.depth_min_m + site.depth_max_m) / 2.0)};
}

/// The wake of one gear at another, downstream in the direction `sign` of the one's axis.
WaterPath path_between(const GearSpan& upper, const GearSpan& lower, double sign) {
  const XY axis{sign * upper.axis.x, sign * upper.axis.y};
  const XY across{axis.y, -axis.x};
  const XY way{lower.centre.x - upper.centre.x, lower.centre.y - upper.centre.y};
  const double cosine = std::abs(dot(axis, lower.axis));
  const double sine = std::abs(dot(across, lower.axis));
  const double length = lower.length_m * cosine + lower.width_m * sine;  // of the lower, seen along
  const double width = lower.length_m * sine + lower.width_m * cosine;
  const double ahead = dot(way, axis) - upper.length_m / 2.0;
  WaterPath path;
  if (ahead <= 0.0) {
    return path;
  }
  path.distance_m = std::max(0.0, ahead - length / 2.0);
  const double wake_width = upper.width_m + 2.0 * kSideways * path.distance_m;
  const double wake_depth = std::min(upper.bottom_m, upper.canopy_m + kDownwards * path.distance_m);
  const double left = upper.width_m * upper.canopy_m / (wake_width * wake_depth);
  const double aside = dot(way, across);
  const double covered = std::min(wake_width / 2.0, aside + width / 2.0) -
                         std::max(-wake_width / 2.0, aside - width / 2.0);
  path.share = left * std::clamp(covered / width, 0.0, 1.0);
  return path;
}

}  // namespace

Neighbours neighbours_of(std::span<const Site> sites, std::span<const FarmShape> shapes) {
  Neighbours out;
  if (sites.empty()) {
    return out;
  }
  const XY bay = bay_axis(sites);
  std::vector<GearSpan> gears;
  for (std::size_t i = 0; i < sites.size(); ++i) {
    gears.push_back(gear_of(sites[i], shapes[i], bay));
  }
  out.order.resize(sites.size());
  std::iota(out.order.begin(), out.order.end(), std::size_t{0});
  std::stable_sort(out.order.begin(), out.order.end(), [&](std::size_t a, std::size_t b) {
    return dot(gears[a].centre, bay) < dot(gears[b].centre, bay);
  });
  for (std::size_t from = 0; from < sites.size(); ++from) {
    for (std::size_t to = 0; to < sites.size(); ++to) {
      if (from != to) {
        WaterPath path =
            path_between(gears[out.order[from]], gears[out.order[to]], to > from ? 1.0 : -1.0);
        path.from = from;
        path.to = to;
        if (path.share >= kLeastShare) {
          out.paths.push_back(path);
        }
      }
    }
  }
  return out;
}

}  // namespace tidelot
