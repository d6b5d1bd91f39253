// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "run/tiles/forcing.hpp"
#include "tidelot/growth/model.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "tidelot/season/window.hpp"

namespace tidelot::run {

/// One cell's season by the reference, day by day.
struct CellSeason {
  SeasonWindow window;
  SeasonWindow water;   ///< what the water alone would give, before the plan's dates
  SeasonResult growth;  ///< empty without a season
};

/// layers: of a tile of one cell, every property known.
[[nodiscard]] CellSeason cell_season(const TileLayers& layers, double latitude_deg,
                                     const SeasonSetup& setup);

}  // namespace tidelot::run
