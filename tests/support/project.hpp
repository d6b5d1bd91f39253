// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "geoio/geoio.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot::test {

/// A position through the program's own projector.
inline XY project(const std::string& from, const std::string& to, LonLat place) {
  geoio::start();
  const auto opener = geoio::make_opener();
  const auto projector = opener->projector(from, to, "test");
  XY point{place.lon, place.lat};
  projector->forward({&point, 1});
  return point;
}

/// And back.
inline LonLat unproject(const std::string& from, const std::string& to, XY place) {
  geoio::start();
  const auto opener = geoio::make_opener();
  const auto projector = opener->projector(from, to, "test");
  projector->inverse({&place, 1});
  return {place.x, place.y};
}

}  // namespace tidelot::test
