// SPDX-License-Identifier: Apache-2.0
// What the ranked sites take from each other when all of them are farmed at once.
#pragma once

#include <span>

#include "run/sites/site_farm.hpp"

namespace tidelot::run {

/// A site with the water at its centre.
struct SiteWater {
  Site* site = nullptr;
  CentreWater water;
};

/// Adds with_neighbours to each of these sites: its figures while all of them are farmed at once,
/// and whose water comes to it. Every one has its own draw-down (add_farm).
void add_neighbours(std::span<const SiteWater> sites, const Plan& plan, const SeasonSetup& setup);

}  // namespace tidelot::run
