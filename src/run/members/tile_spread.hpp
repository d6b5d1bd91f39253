// SPDX-License-Identifier: Apache-2.0
// The spread of the members over a tile: quantiles of yield and nitrogen, and how often a cell is
// suitable.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "run/members/member_seasons.hpp"
#include "run/tiles/tile_job.hpp"

namespace tidelot::run {

/// How far P10, P50 and P90 may be off where members lie between others, as a share of the crop.
inline constexpr double kSpreadTolerance = 0.02;

/// How far the share of members in maps/confidence.tif may be off where members lie between others;
/// at least one member.
inline constexpr double kConfidenceTolerance = 0.05;

/// Index = member.
struct MemberScores {
  std::vector<float> suitability;  ///< 0 where the cell is closed to it or land
  std::vector<std::uint8_t> open;  ///< 1: neither
};

/// One cell's seasons, index = member.
struct MemberYields {
  std::span<const float> yield_g_per_m;  ///< net
  std::span<const SeasonState> state;
};

/// Members as they are scored, one cell at a time.
class MemberScorer {
 public:
  MemberScorer(const TileJob& job, const Members& members) : job_(job), members_(members) {}
  /// Each member's verdict on a cell; empty where that of the best estimate is not known. deviates:
  /// of its place.
  [[nodiscard]] MemberScores operator()(const CellEvidence& best, const MemberYields& seasons,
                                        const Deviates& deviates, std::size_t place) const;

 private:
  const TileJob& job_;
  const Members& members_;
};

/// A cell's place in the tile.
struct TileCell {
  int col = 0;
  int row = 0;
};

/// The cells of a tile's evidence that were grown.
[[nodiscard]] std::vector<TileCell> grown_cells(const Tile& tile, const TileEvidence& evidence);
[[nodiscard]] std::vector<XY> places_of(const Grid& grid, const Tile& tile,
                                        std::span<const TileCell> cells);

/// Counts the cells of the tile that are water in each member into the worker. Depth 0 is land in
/// all of them: it is what [land] makes of a cell.
void count_member_water(const Tile& tile, const TileJob& job, const TileEvidence& evidence,
                        Worker& worker);

/// Writes the group into the maps of the spread, and counts its open and suitable cells into the
/// worker. evidence: of each tile. Groups do not overlap, so workers may write at once.
void add_spread(const TileGroup& group, const TileJob& job, std::span<const TileEvidence> evidence,
                Worker& worker, SpreadMaps& maps);

}  // namespace tidelot::run
