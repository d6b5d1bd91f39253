// SPDX-License-Identifier: Apache-2.0
#include "run/site_centre.hpp"

namespace tidelot::run {

std::optional<TileLayers> centre_layers(const Site& site, const SeasonSetup& setup,
                                        LayerSet& layers) {
  const XY a = site.corners_xy[0];
  const XY b = site.corners_xy[2];
  const Cell cell = layers.grid().cell_of({(a.x + b.x) / 2.0, (a.y + b.y) / 2.0});
  if (!layers.grid().holds(cell)) {
    return std::nullopt;
  }
  TileLayers here = layers.sample(Tile{cell.col, cell.row, 1, 1});
  return setup.unknown_property(here, 0) == 0 ? std::optional(std::move(here)) : std::nullopt;
}

}  // namespace tidelot::run
