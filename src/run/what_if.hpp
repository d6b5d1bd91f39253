// SPDX-License-Identifier: Apache-2.0
// How the open water and the best site change when a distance or limit of the plan is moved. The
// crop is not grown again: only what is closed changes.
#pragma once

#include <atomic>
#include <span>

#include "run/maps.hpp"
#include "run/movable.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/report/what_if.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// Each is moved by this share, down and up.
inline constexpr double kMove = 0.25;

/// A scored run. References outlive the call.
struct ScoredRun {
  const Grid& grid;
  const Maps& maps;            ///< with `open`
  const SitesResult& sites;    ///< as planned
  double open_ha = 0.0;        ///< as planned
  double cell_ha = 0.0;        ///< true area of a cell
  double scale = 1.0;          ///< grid length over ground length
  const Projector& to_lonlat;  ///< each worker clones it
  const Geodesy& geodesy;      ///< read from every thread
};

/// maps/closed.tif under other rules. moved: the [[closed]] rule whose shapes are looked at anew;
/// the others' bits are those of the maps. Costs one pass over the water and the moved rule's
/// reach.
[[nodiscard]] std::vector<std::uint32_t> closed_under(const ScoredRun& run, const Rules& rules,
                                                      std::optional<std::size_t> moved);

/// The table; the same at any thread count. Each move places one site anew, beside the plan's own
/// boxes that are ranked: those neither move nor stand in the table.
[[nodiscard]] WhatIf what_if(const ScoredRun& run, const Rules& rules, int threads,
                             const std::atomic<int>* stop_signal);

}  // namespace tidelot::run
