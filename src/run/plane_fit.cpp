// SPDX-License-Identifier: Apache-2.0
#include "run/plane_fit.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tidelot::run {
namespace {

// Keeps the moments of spots in a line invertible; spots are scaled to a reach of 1.
constexpr double kRidge = 1e-9;

}  // namespace

PlaneFit::PlaneFit(std::vector<XY> spots) : spots_(std::move(spots)) {
  const auto n = static_cast<double>(spots_.size());
  for (const XY& spot : spots_) {
    middle_.x += spot.x / n;
    middle_.y += spot.y / n;
  }
  double reach = 0.0;
  for (const XY& spot : spots_) {
    reach = std::max({reach, std::abs(spot.x - middle_.x), std::abs(spot.y - middle_.y)});
  }
  reach_ = reach > 0.0 ? reach : 1.0;
  double xx = kRidge, xy = 0.0, yy = kRidge;
  for (const XY& spot : spots_) {
    const auto [x, y] = about_middle(spot);
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  const double determinant = xx * yy - xy * xy;
  inverse_ = {yy / determinant, -xy / determinant, xx / determinant};
}

std::array<double, 2> PlaneFit::about_middle(XY place) const {
  return {(place.x - middle_.x) / reach_, (place.y - middle_.y) / reach_};
}

std::vector<double> PlaneFit::weights(XY place) const {
  const auto [x, y] = about_middle(place);
  const auto& [xx, xy, yy] = inverse_;
  const double along_x = x * xx + y * xy;
  const double along_y = x * xy + y * yy;
  std::vector<double> out;
  for (const XY& spot : spots_) {
    const auto [sx, sy] = about_middle(spot);
    out.push_back(1.0 / static_cast<double>(spots_.size()) + along_x * sx + along_y * sy);
  }
  return out;
}

std::size_t PlaneFit::nearest(XY place) const {
  const auto far = [&](const XY& spot) { return std::hypot(spot.x - place.x, spot.y - place.y); };
  const auto found = std::min_element(spots_.begin(), spots_.end(),
                                      [&](const XY& a, const XY& b) { return far(a) < far(b); });
  return static_cast<std::size_t>(found - spots_.begin());
}

}  // namespace tidelot::run
