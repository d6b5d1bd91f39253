// SPDX-License-Identifier: Apache-2.0
// How the open water and the best site change when a distance or limit of the plan is moved. The
// crop is not grown again: only what is closed changes.
#pragma once

#include <atomic>
#include <span>

#include "run/tiles/maps.hpp"
#include "run/tiles/movable.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/report/what_if.hpp"
#include "tidelot/sites/site_search.hpp"

namespace tidelot::run {

/// Each is moved by this share, down and up.
inline constexpr double kMove = 0.25;

/// A scored run. References outlive the call.
struct ScoredRun {
  const Grid& grid;
  const Maps& maps;            ///< with `open`
  const SitesResult& sites;    ///< as planned
  const SiteSearch& search;    ///< that found them
  std::size_t open_cells = 0;  ///< open and scored, as planned
  double cell_ha = 0.0;        ///< true area of a cell
  double scale = 1.0;          ///< grid length over ground length
  const Projector& to_lonlat;  ///< each worker clones it
  const Geodesy& geodesy;      ///< read from every thread
};

/// Where maps/closed.tif is another one under other rules. what: the one distance or limit that
/// differs in moved. Costs a look at the water and, where a setback was moved, the rule's reach.
[[nodiscard]] ClosedChanges moved_closed(const ScoredRun& run, const Rules& planned,
                                         const Rules& moved, const Movable& what);

/// The table; the same at any thread count. Each move places one site anew, beside the plan's own
/// boxes that are ranked: those neither move nor stand in the table.
[[nodiscard]] WhatIf what_if(const ScoredRun& run, const Rules& rules, int threads,
                             const std::atomic<int>* stop_signal);

}  // namespace tidelot::run
