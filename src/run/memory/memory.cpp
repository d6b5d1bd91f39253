// SPDX-License-Identifier: Apache-2.0
#include "run/memory/memory.hpp"

#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>

#include "geoio/geoio.hpp"
#include "run/memory/page_keeper.hpp"
#include "run/tiles/tile_job.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

constexpr std::size_t kMiB = std::size_t{1} << 20U;

// Measured, with a margin of a half; docs/design/memory.md.
constexpr std::size_t kWorker = 24 * kMiB;  ///< files open, packers, places that were refined
constexpr std::size_t kShared = 40 * kMiB;  ///< pictures of the report, places, ledger
constexpr std::size_t kCellOfGroup = 256;   ///< bytes of a cell that a worker grows
constexpr std::size_t kLayersOfGroup = 2;   ///< copies of what the layers tell of such a cell
constexpr std::size_t kMemberOfGroup = 2;   ///< likewise of a member of such a cell
constexpr std::size_t kPagesOfCell = 96;    ///< of the maps and other arrays
constexpr std::size_t kSearchOfCell = 1;    ///< what the search for sites jumps about in
constexpr std::size_t kSpare = 96 * kMiB;   ///< what comes between two looks at the pages

constexpr std::size_t kMostCache = 64 * kMiB;
constexpr std::size_t kBlocksOfMap = 8 * kMiB;  ///< twice what GDAL copies at once
constexpr std::size_t kLeastPages = 16 * kMiB;

/// Takes up to `wish` off a part that keeps at least `least`. What was taken.
std::size_t cut(std::size_t& part, std::size_t least, std::size_t wish) {
  const std::size_t taken = std::min(wish, part - std::min(part, least));
  part -= taken;
  return taken;
}

std::size_t bytes_of(const std::vector<float>& values) { return values.size() * sizeof(float); }

std::size_t bytes_of(const MonthlyTile& tile) {
  std::size_t bytes = bytes_of(tile.share);
  for (const std::vector<float>& month : tile.month) {
    bytes += bytes_of(month);
  }
  for (const std::vector<float>& day : tile.day) {
    bytes += bytes_of(day);
  }
  return bytes;
}

std::size_t bytes_of(const TileLayers& layers) {
  std::size_t bytes = bytes_of(layers.depth_low_water) + bytes_of(layers.current_axis_deg);
  for (const MonthlyTile* tile :
       {&layers.temperature, &layers.salinity, &layers.attenuation, &layers.nitrogen,
        &layers.ammonium, &layers.current, &layers.radiation}) {
    bytes += bytes_of(*tile);
  }
  for (const std::vector<float>& own : layers.own) {
    bytes += bytes_of(own);
  }
  return bytes;
}

}  // namespace

MemoryNeed memory_need(const Plan& plan, LayerSet& layers) {
  const Grid& grid = layers.grid();
  const auto members = static_cast<std::size_t>(std::max(0, plan.uncertainty.draws));
  MemoryNeed need;
  need.cells = grid.size();
  need.cell_bytes = bytes_of(layers.sample({grid.cols / 2, grid.rows / 2, 1, 1}));
  need.members = members;
  const std::size_t held = resident_memory().all;
  need.layer_bytes = held - std::min(held, geoio::held_blocks());
  for (const TileGroup& group : tile_groups(grid, members > 0)) {
    need.group_cells = std::max(need.group_cells, group.area.size());
  }
  return need;
}

MemoryUse predicted_memory(const MemoryNeed& need, int threads) {
  const auto workers = static_cast<std::size_t>(threads);
  const std::size_t group = need.group_cells * (kCellOfGroup + kLayersOfGroup * need.cell_bytes +
                                                kMemberOfGroup * need.members);
  MemoryUse use;
  use.layers = need.layer_bytes;
  use.workers = kShared + workers * (kWorker + group);
  use.written = workers * kBlocksOfMap;
  use.cache = std::max(std::min(kMostCache, need.cells * kPagesOfCell), use.written);
  use.pages = std::min(kMostPages, need.cells * kPagesOfCell);
  use.search = std::min(need.cells * kSearchOfCell, need.cells * kPagesOfCell - use.pages);
  use.spare = kSpare;
  return use;
}

MemoryUse memory_within(const MemoryNeed& need, int threads, std::optional<std::size_t> ceiling) {
  MemoryUse use = predicted_memory(need, threads);
  if (!ceiling) {
    return use;
  }
  const std::size_t all_pages = need.cells * kPagesOfCell;
  if (use.total() <= *ceiling) {
    use.pages = std::min(std::max(use.pages, all_pages), use.pages + *ceiling - use.total());
    return use;
  }
  std::size_t over = use.total() - *ceiling;
  over -= cut(use.pages, std::min(use.pages, kLeastPages), over);
  over -= cut(use.cache, std::min(use.cache, use.written + use.search), over);
  if (over > 0) {
    throw Error(Fault::plan,
                fmt::format("--memory: the run needs {} with {} threads, and {} are allowed; give "
                            "it more, or fewer --threads, or a larger [area] cell_m",
                            mebibytes(use.total()), threads, mebibytes(*ceiling)));
  }
  return use;
}

std::string mebibytes(std::size_t bytes) {
  return fmt::format("{} MiB", (bytes + kMiB - 1) / kMiB);
}

std::size_t peak_memory() {
  struct rusage usage {};
  ::getrusage(RUSAGE_SELF, &usage);
  return static_cast<std::size_t>(usage.ru_maxrss) * 1024;
}

}  // namespace tidelot::run
