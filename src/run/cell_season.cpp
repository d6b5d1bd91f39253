// SPDX-License-Identifier: Apache-2.0
#include "run/cell_season.hpp"

namespace tidelot::run {

CellSeason cell_season(const TileLayers& layers, double latitude_deg, const SeasonSetup& setup) {
  const TileForcing forcing = cell_forcing(layers, latitude_deg, setup);
  CellSeason out;
  out.window = forcing.windows[0];
  out.water = water_window(nodes_at(forcing.kernel.temperature, 1, 0), setup.rules());
  const auto days = day_forcing(forcing, 0, static_cast<float>(latitude_deg), setup);
  if (!days.empty()) {
    out.growth = grow_season(days, setup.husbandry(), setup.constants());
  }
  return out;
}

}  // namespace tidelot::run
