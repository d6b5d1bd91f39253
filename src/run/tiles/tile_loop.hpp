// SPDX-License-Identifier: Apache-2.0
// The tiles of a run: all of them in one process, or shared with others.
#pragma once

#include <string>
#include <vector>

#include "run/area.hpp"
#include "run/resume/part_file.hpp"
#include "run/resume/tile_ledger.hpp"
#include "run/stages.hpp"
#include "run/tiles/maps.hpp"
#include "run/tiles/tile_job.hpp"

namespace tidelot::run {

/// What every way through the tiles needs.
struct TileLoop {
  const Plan& plan;
  const Area& area;
  TileJob job;
  MapChoice choice;      ///< of the maps that the plan asks for
  std::string identity;  ///< of the run
  const RunOptions& options;
  Stages& stages;
  std::vector<TileGroup> groups = tile_groups(*job.grid, job.members != nullptr);

  [[nodiscard]] const Grid& grid() const { return *job.grid; }
  [[nodiscard]] std::size_t members() const {
    return job.members != nullptr ? job.members->size() : 0;
  }
};

/// What the tiles tell besides the maps.
struct Scored {
  GroupCounts counted;         ///< over all tiles
  std::size_t kept_cells = 0;  ///< in tiles that an earlier run had finished
};

/// Grows and scores every tile that the ledger does not hold, and notes it there. Where the process
/// is the first of an MPI job it hands tiles out to the others, too, and leaves the job at the end.
/// Error(input) where another process reads other inputs.
[[nodiscard]] Scored score_tiles(const TileLoop& loop, Maps& maps, TileLedger& ledger);

/// Does what the first process of the job asks for, and writes nothing.
void help_with_tiles(const TileLoop& loop);

/// Grows and scores the tiles of a part into its file. How many there were.
[[nodiscard]] std::size_t score_part(const TileLoop& loop, const Part& part, PartFile& file);

}  // namespace tidelot::run
