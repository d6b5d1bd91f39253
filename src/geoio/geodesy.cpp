// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/geodesy.hpp"

#include <geodesic.h>

#include <cmath>

#include "geoio/geoio.hpp"

namespace tidelot::geoio {
namespace {

// WGS 84 (EPSG:7030).
constexpr double kSemiMajorM = 6378137.0;
constexpr double kFlattening = 1.0 / 298.257223563;

struct Inverse {
  double distance_m = 0.0;
  double azimuth_deg = 0.0;  ///< -180..180
};

/// The vertices of a ring, each once: a repeated first vertex at the end is left out.
std::span<const LonLat> open_ring(std::span<const LonLat> ring) {
  const bool closed = ring.size() > 1 && ring.front() == ring.back();
  return closed ? ring.first(ring.size() - 1) : ring;
}

/// geodesic.h is the C form of the method of Karney (2013), by its author. A geod_geodesic is only
/// read after geod_init, so one may serve every thread.
class Wgs84Geodesy final : public Geodesy {
 public:
  Wgs84Geodesy() { geod_init(&ellipsoid_, kSemiMajorM, kFlattening); }

  double distance_m(LonLat a, LonLat b) const override { return inverse(a, b).distance_m; }

  double azimuth_deg(LonLat a, LonLat b) const override {
    if (a == b) {
      return 0.0;  // no direction; the library would answer with 180
    }
    const double azimuth = inverse(a, b).azimuth_deg;
    return azimuth < 0.0 ? azimuth + 360.0 : azimuth;
  }

  double area_m2(std::span<const LonLat> ring) const override {
    geod_polygon polygon;
    geod_polygon_init(&polygon, 0);
    for (const LonLat vertex : open_ring(ring)) {
      geod_polygon_addpoint(&ellipsoid_, &polygon, vertex.lat, vertex.lon);
    }
    double area = 0.0;
    geod_polygon_compute(&ellipsoid_, &polygon, 0, 1, &area, nullptr);
    return std::fabs(area);
  }

 private:
  [[nodiscard]] Inverse inverse(LonLat a, LonLat b) const {
    Inverse found;
    double azimuth_at_b = 0.0;
    geod_inverse(&ellipsoid_, a.lat, a.lon, b.lat, b.lon, &found.distance_m, &found.azimuth_deg,
                 &azimuth_at_b);
    return found;
  }

  geod_geodesic ellipsoid_{};
};

}  // namespace

std::unique_ptr<Geodesy> make_geodesy() { return std::make_unique<Wgs84Geodesy>(); }

}  // namespace tidelot::geoio
