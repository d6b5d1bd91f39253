// SPDX-License-Identifier: Apache-2.0
#include "report/maps/map_range.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "tidelot/core/grid_vector.hpp"
#include "tidelot/criteria/wave_climate.hpp"

namespace tidelot::page {
namespace {

/// Cells that are looked at before the room in use gets a rest.
constexpr std::size_t kStretch = std::size_t{1} << 18U;

MapRange range_of(std::span<const float> values) {
  RangeSoFar range;
  for (std::size_t first = 0; first < values.size(); first += kStretch) {
    const auto stretch = values.subspan(first, std::min(kStretch, values.size() - first));
    for (const float value : stretch) {
      range.add(value);
    }
    walked_over(stretch.size_bytes());
  }
  return range.range();
}

/// The smallest of 1, 2, 2.5, 5 times a power of ten that is not below the value; the value > 0.
double round_up(double value) {
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double step : {1.0, 2.0, 2.5, 5.0}) {
    if (value <= step * power * (1.0 + 1e-9)) {
      return step * power;
    }
  }
  return 10.0 * power;
}

}  // namespace

MapRange round_range(MapRange range, double factor) {
  return {range.low < 0.0 ? -round_up(-range.low * factor) / factor : 0.0,
          range.high > 0.0 ? round_up(range.high * factor) / factor : 0.0};
}

int decimals_for(double span) { return span >= 50.0 ? 0 : span >= 5.0 ? 1 : span >= 0.5 ? 2 : 3; }

}  // namespace tidelot::page

namespace tidelot {

MapRanges ranges_of(const ScoredMaps& maps) {
  using page::range_of;
  return {range_of(maps.yield_kg_per_m),
          range_of(maps.nitrogen_g_per_m),
          range_of(maps.depth_low_water),
          range_of(maps.outplant),
          range_of(maps.last_haul),
          maps.waves != nullptr ? range_of(maps.waves->height_50y_m) : MapRange{}};
}

}  // namespace tidelot
