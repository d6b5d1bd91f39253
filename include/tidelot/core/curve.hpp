// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

namespace tidelot {

/// A piecewise linear curve through (x, y) points with rising x, flat beyond its ends. Two points
/// with the same x make a step; the step's own x takes the later y. NaN in, NaN out.
class Curve {
 public:
  struct Point {
    double x;
    double y;
    friend bool operator==(const Point&, const Point&) = default;
  };
  Curve() = default;
  /// Throws std::invalid_argument when empty, not finite or falling in x.
  explicit Curve(std::vector<Point> points);
  [[nodiscard]] double operator()(double x) const;
  [[nodiscard]] const std::vector<Point>& points() const { return points_; }
  friend bool operator==(const Curve&, const Curve&) = default;

 private:
  std::vector<Point> points_;
};

}  // namespace tidelot
