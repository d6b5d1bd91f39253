// SPDX-License-Identifier: Apache-2.0
// How much memory a run takes, told before it starts, and kept to.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>

#include "tidelot/run.hpp"

namespace tidelot::run {

/// What the peak of a run's memory hangs on.
struct MemoryNeed {
  std::size_t cells = 0;        ///< of the grid
  std::size_t group_cells = 0;  ///< of the largest tile, or group of tiles, that a worker takes
  std::size_t cell_bytes = 0;   ///< of what the layers tell of a cell, all steps of time
  std::size_t members = 0;      ///< 0: the best estimate only
  std::size_t layer_bytes = 0;  ///< the program with its layers open, without blocks of files
};
/// Of a plan whose layers were just opened. What the process holds now counts as layer_bytes, but
/// for blocks of files.
[[nodiscard]] MemoryNeed memory_need(const Plan& plan, LayerSet& layers);

/// The parts of a run's peak, bytes.
struct MemoryUse {
  std::size_t layers = 0;   ///< as in the need
  std::size_t workers = 0;  ///< what the threads work on
  std::size_t cache = 0;    ///< blocks of files, unpacked
  std::size_t written = 0;  ///< such blocks while maps are written; fewer would pack tiles twice
  std::size_t pages = 0;    ///< of the maps and other arrays over the grid, which lie in files
  std::size_t search = 0;   ///< more of them, while sites are searched for
  std::size_t spare = 0;    ///< for pages that come before the keeper looks again

  /// Of the stage that takes most.
  [[nodiscard]] std::size_t total() const {
    return layers + workers + std::max(cache, written + search) + pages + spare;
  }
};

/// The most that a run takes where nothing holds it back. threads: at least 1. From some
/// size of the grid on it grows by a byte a cell, for the search for sites.
[[nodiscard]] MemoryUse predicted_memory(const MemoryNeed& need, int threads);

/// The same under a ceiling, if there is one: pages and cache are cut down until it fits, and where
/// there is room left more pages are held. Error(plan) where it does not fit, with what to do.
[[nodiscard]] MemoryUse memory_within(const MemoryNeed& need, int threads,
                                      std::optional<std::size_t> ceiling);

/// "1234 MiB", rounded up.
[[nodiscard]] std::string mebibytes(std::size_t bytes);

/// The most that this process has held so far, bytes.
[[nodiscard]] std::size_t peak_memory();

}  // namespace tidelot::run
