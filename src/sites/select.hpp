// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "sites/candidates.hpp"
#include "sites/proximity.hpp"
#include "sites/rectangle.hpp"
#include "sites/setbacks.hpp"

namespace tidelot {

/// What every place is held against; lengths in the grid's metres.
struct Siting {
  const Grid& grid;
  SiteSize size;
  double gap_m;
  const std::vector<Footprint>& footprints;
  const Setbacks& setbacks;
  const Proximity& proximity;
  const ScoredMaps& maps;
};

/// Places that fit the cells but not the rest, as counted while choosing.
struct Refusals {
  std::size_t by_setback = 0;
  std::size_t by_gap = 0;
  std::size_t by_near = 0;
};

struct Placed {
  Candidate candidate;
  Rectangle rectangle;
};

/// Takes the best places that keep the gap to all of `taken` and every setback, and that the
/// closing
/// [[near]] tests allow, up to count; adds them to taken.
[[nodiscard]] std::vector<Placed> select_places(Candidates& candidates, const Siting& siting,
                                                int count, std::vector<Rectangle>& taken,
                                                Refusals& refusals);

}  // namespace tidelot
