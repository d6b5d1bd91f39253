// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "depth_sign.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

/// Fills cover, low and high of the reports of layers that vary from cell to cell, and their
/// verdicts, by sampling tiles spread evenly over the grid: all of them up to about max_cells.
/// Warns of depths whose sign the rest of the plan speaks against (depth_sign.hpp): closed areas,
/// layers of water, and the witnesses that are known already.
void report_cover(const Plan& plan, LayerSet& layers, std::vector<LayerReport>& reports,
                  std::vector<std::string>& warnings, const std::vector<SeaWitness>& witnesses = {},
                  std::size_t max_cells = std::size_t{1} << 20);

}  // namespace tidelot
