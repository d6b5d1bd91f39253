// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>

#include "run/forcing.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// The layers in the cell at a site's centre; none where something that the crop needs is not known
/// there.
[[nodiscard]] std::optional<TileLayers> centre_layers(const Site& site, const SeasonSetup& setup,
                                                      LayerSet& layers);

}  // namespace tidelot::run
