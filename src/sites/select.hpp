// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "sites/candidates.hpp"
#include "sites/trial.hpp"

namespace tidelot {

/// Places that fit the cells but not the rest, as counted while choosing.
struct Refusals {
  std::size_t by_setback = 0;
  std::size_t by_gap = 0;
  std::size_t by_near = 0;
};

/// A chosen place.
struct Placed {
  SiteBox box;
  double angle_deg = 0.0;
  std::int64_t score = 0;
  Cell cell;  ///< under its centre
};

/// The order of the ranking: by score, then by row, column and angle.
[[nodiscard]] bool ranks_before(const Placed& a, const Placed& b);

/// Takes the best places that keep the gap to all of `taken` and every setback, and that the
/// closing [[near]] tests allow, up to count; adds them to taken. One after another: the leading
/// places of the lattice are refined, and the best of what comes out is taken. How, and how far it
/// may be from the best there is: docs/design/placing.md.
[[nodiscard]] std::vector<Placed> select_places(Candidates& candidates, const Siting& siting,
                                                const Fits& fits, int count,
                                                std::vector<SiteBox>& taken, Refusals& refusals);

}  // namespace tidelot
