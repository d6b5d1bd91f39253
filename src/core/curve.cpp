// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/curve.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace tidelot {

Curve::Curve(std::vector<Point> points) : points_(std::move(points)) {
  if (points_.empty()) {
    throw std::invalid_argument("a curve needs at least one point");
  }
  for (std::size_t i = 0; i < points_.size(); ++i) {
    if (!std::isfinite(points_[i].x) || !std::isfinite(points_[i].y)) {
      throw std::invalid_argument("a curve's points must be finite");
    }
    if (i > 0 && points_[i].x < points_[i - 1].x) {
      throw std::invalid_argument("a curve's points must rise in x");
    }
  }
}

double Curve::operator()(double x) const {
  if (std::isnan(x)) {
    return x;
  }
  const auto right = std::upper_bound(points_.begin(), points_.end(), x,
                                      [](double value, const Point& p) { return value < p.x; });
  if (right == points_.begin()) {
    return points_.front().y;
  }
  if (right == points_.end()) {
    return points_.back().y;
  }
  const Point& a = *(right - 1);
  const double y = a.y + (right->y - a.y) * (x - a.x) / (right->x - a.x);
  return std::clamp(y, std::min(a.y, right->y), std::max(a.y, right->y));  // rounding may overshoot
}

}  // namespace tidelot
