// SPDX-License-Identifier: Apache-2.0
#include "run/site_centre.hpp"

namespace tidelot::run {

std::optional<TileLayers> centre_layers(const Site& site, const SeasonSetup& setup,
                                        LayerSet& layers) {
  const Cell cell = layers.grid().cell_of(site.centre_xy);
  if (!layers.grid().holds(cell)) {
    return std::nullopt;
  }
  TileLayers here = layers.sample(Tile{cell.col, cell.row, 1, 1});
  return setup.unknown_property(here, 0) == 0 ? std::optional(std::move(here)) : std::nullopt;
}

}  // namespace tidelot::run
