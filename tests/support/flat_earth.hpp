// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>
#include <numbers>

#include "support/twins.hpp"
#include "tidelot/sites/geodesy.hpp"

namespace tidelot::test {

/// Metres to a degree on the flat earth of the tests, in both directions.
inline constexpr double kMetresPerDegree = 100'000.0;

/// From a grid to the flat earth. scale: grid length over ground length.
inline twins::FunctionProjector flat_projector(double scale = 1.0) {
  const double metres = kMetresPerDegree * scale;
  return {[=](XY p) {
            return XY{p.x / metres, p.y / metres};
          },
          [=](XY p) {
            return XY{p.x * metres, p.y * metres};
          }};
}

/// Lengths and areas on it, by school geometry.
class FlatGeodesy final : public Geodesy {
 public:
  [[nodiscard]] double distance_m(LonLat a, LonLat b) const override {
    return kMetresPerDegree * std::hypot(b.lon - a.lon, b.lat - a.lat);
  }
  [[nodiscard]] double azimuth_deg(LonLat a, LonLat b) const override {
    const double degrees = std::atan2(b.lon - a.lon, b.lat - a.lat) * 180.0 / std::numbers::pi;
    return degrees < 0.0 ? degrees + 360.0 : degrees;
  }
  [[nodiscard]] double area_m2(std::span<const LonLat> ring) const override {
    double twice = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const LonLat a = ring[i];
      const LonLat b = ring[(i + 1) % ring.size()];
      twice += a.lon * b.lat - b.lon * a.lat;
    }
    return std::abs(twice) / 2.0 * kMetresPerDegree * kMetresPerDegree;
  }
};

}  // namespace tidelot::test
