// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>

#include "run/area.hpp"
#include "run/tiles/forcing.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// The layers in the cell at a site's centre; none where it lies off the grid.
[[nodiscard]] std::optional<TileLayers> layers_at_centre(const Site& site, LayerSet& layers);

/// The same; none where something that the crop needs is not known there.
[[nodiscard]] std::optional<TileLayers> centre_layers(const Site& site, LayerSet& layers);

/// Monthly means of one cell's property; NaN where a month, or a day of it, is not known.
[[nodiscard]] SiteWater::Year monthly_means(const MonthlyTile& cell);

/// Notes what the layers say of the water at each site's centre, those listed apart too.
void add_site_water(SitesResult& sites, const Area& area);

}  // namespace tidelot::run
