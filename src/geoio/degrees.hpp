// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <cmath>

#include "tidelot/layers/opener.hpp"

namespace tidelot::geoio {

/// A longitude in -180..180.
[[nodiscard]] inline double plain_longitude(double degrees) {
  return degrees - 360.0 * std::floor((degrees + 180.0) / 360.0);
}

/// Does a box hold a place? Its longitude may count from 0 to 360.
[[nodiscard]] inline bool holds(const LonLatBox& box, XY degrees) {
  const double lon = plain_longitude(degrees.x);
  return lon >= box.west && lon <= box.east && degrees.y >= box.south && degrees.y <= box.north;
}

/// The box of places, for messages.
class DegreeBox {
 public:
  void add(XY degrees) {
    if (!std::isfinite(degrees.x) || !std::isfinite(degrees.y)) {
      return;
    }
    const double lon = plain_longitude(degrees.x);
    box_ = any_ ? LonLatBox{std::min(box_.west, lon), std::min(box_.south, degrees.y),
                            std::max(box_.east, lon), std::max(box_.north, degrees.y)}
                : LonLatBox{lon, degrees.y, lon, degrees.y};
    any_ = true;
  }
  /// The whole earth where nothing was added.
  [[nodiscard]] LonLatBox box() const { return any_ ? box_ : LonLatBox{}; }

 private:
  LonLatBox box_;
  bool any_ = false;
};

}  // namespace tidelot::geoio
