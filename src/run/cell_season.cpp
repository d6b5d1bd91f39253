// SPDX-License-Identifier: Apache-2.0
#include "run/cell_season.hpp"

#include <array>

namespace tidelot::run {

CellSeason cell_season(const TileLayers& layers, double latitude_deg, const SeasonSetup& setup) {
  const std::array<std::size_t, 1> only{0};
  const std::array<float, 1> latitude{static_cast<float>(latitude_deg)};
  const TileForcing forcing = tile_forcing(layers, only, latitude, setup);
  CellSeason out;
  out.window = forcing.windows[0];
  out.water = water_window(nodes_at(forcing.kernel.temperature, 1, 0), setup.rules());
  const auto days = day_forcing(forcing, 0, latitude[0], setup);
  if (!days.empty()) {
    out.growth = grow_season(days, setup.husbandry(), setup.constants());
  }
  return out;
}

}  // namespace tidelot::run
