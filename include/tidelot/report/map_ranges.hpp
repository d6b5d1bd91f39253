// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// The least and the greatest value of a map, in its own unit; 0 to 1 where none is known.
struct MapRange {
  double low = 0.0;
  double high = 1.0;
};

/// Of the maps whose colours run from the one to the other.
struct MapRanges {
  MapRange yield_kg_per_m;
  MapRange nitrogen_g_per_m;
  MapRange depth_low_water;
  MapRange outplant;
  MapRange last_haul;
  MapRange wave_50y_m;
};

/// Looks at every cell of them.
[[nodiscard]] MapRanges ranges_of(const ScoredMaps& maps);

}  // namespace tidelot
