// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "tidelot/growth/farm.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// Sites in the order of the axis along which the tide runs, and the ways of the water between
/// them.
struct Neighbours {
  std::vector<std::size_t> order;  ///< which site stands at each place
  std::vector<WaterPath> paths;    ///< from and to are places in the order
};

/// Each site's axis is its long side, in which its lines lie; the bay's axis is their mean (doubled
/// angles). The wake of a site's gear runs on along the site's own axis, widens by 1 in 10 to each
/// side and deepens by 1 in 100 down to the bottom at low water (judgement), and mixes evenly. A
/// path leads from a site to each one further along the bay's axis whose gear lies, in part, in the
/// wake; its share is what is left undiluted times the part of the gear's width that lies in it.
/// Shares below 0.01 are left out. shapes: of the sites. Equations: docs/science/depletion.md.
[[nodiscard]] Neighbours neighbours_of(std::span<const Site> sites,
                                       std::span<const FarmShape> shapes);

}  // namespace tidelot
