// SPDX-License-Identifier: Apache-2.0
#include "plan/bounds.hpp"

namespace tidelot::planfile {

bool in_bounds(const AreaPlan& area, LonLat at) {
  return at.lon >= area.west && at.lon <= area.east && at.lat >= area.south && at.lat <= area.north;
}

std::string_view likely_slip(const AreaPlan& area, LonLat at) {
  return in_bounds(area, {at.lat, at.lon})    ? "longitude comes before latitude"
         : in_bounds(area, {-at.lon, at.lat}) ? "has the longitude lost its sign?"
                                              : "";
}

}  // namespace tidelot::planfile
