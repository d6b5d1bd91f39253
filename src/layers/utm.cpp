// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "tidelot/core/error.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot {
namespace {

/// Zone of the plain six-degree scheme, -180 being the west edge of zone 1.
int plain_zone(double lon) {
  const double wrapped = lon - 360.0 * std::floor((lon + 180.0) / 360.0);
  return static_cast<int>(std::floor((wrapped + 180.0) / 6.0)) + 1;
}

/// Svalbard (72 to 84 N): the zones 31, 33, 35, 37 take the place of 31 to 37.
int svalbard_zone(double lon) { return lon < 9.0 ? 31 : lon < 21.0 ? 33 : lon < 33.0 ? 35 : 37; }

int zone_of(LonLat place) {
  if (place.lat >= 72.0 && place.lon >= 0.0 && place.lon < 42.0) {
    return svalbard_zone(place.lon);
  }
  const bool norway = place.lat >= 56.0 && place.lat < 64.0 && place.lon >= 3.0 && place.lon < 12.0;
  return norway ? 32 : plain_zone(place.lon);
}

}  // namespace

std::string utm_crs(LonLat place) {
  if (!(place.lat >= -80.0 && place.lat <= 84.0) || !std::isfinite(place.lon)) {
    throw Error(Fault::plan, fmt::format("area.crs: there is no UTM zone at latitude {}; name a "
                                         "projected system in metres",
                                         place.lat));
  }
  return fmt::format("EPSG:{}", (place.lat < 0.0 ? 32700 : 32600) + zone_of(place));
}

}  // namespace tidelot
