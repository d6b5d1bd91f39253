// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>

#include "run/members/member_lattice.hpp"
#include "run/members/members.hpp"
#include "run/tiles/forcing.hpp"
#include "run/tiles/maps.hpp"
#include "run/tiles/whole_grid.hpp"
#include "tidelot/criteria/member_verdict.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/wave_climate.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot::run {

/// Cells that are this or that, member by member.
struct MemberCells {
  MemberCells() = default;
  explicit MemberCells(std::size_t members) : water(members), open(members), suitable(members) {}
  void add(const MemberCells& other);

  std::vector<std::size_t> water;     ///< deeper than 0 at low water
  std::vector<std::size_t> open;      ///< open and scored
  std::vector<std::size_t> suitable;  ///< of them, good enough for a site
};

/// What the members tell of some cells besides the maps.
struct GroupCounts {
  MemberCells cells{0};
  LatticeCount lattice;  ///< in how many cells members were grown

  void add(const GroupCounts& other);
};

/// What one worker needs; not shared.
struct Worker {
  std::unique_ptr<LayerSet> layers;
  std::unique_ptr<Projector> to_lonlat;
  std::optional<LayerDraws> draws{};  ///< none: the best estimate only
  GroupCounts counted{};              ///< in the group that it runs
};

/// What all workers share, read only.
struct TileJob {
  const Grid* grid = nullptr;
  const SeasonSetup* season = nullptr;
  const Scorer* scorer = nullptr;
  std::span<const std::uint32_t> rules;          ///< closing bits of the plan's rules; empty: none
  std::span<const std::uint32_t> rules_unknown;  ///< of those not known to hold; empty: none
  std::span<const MonthRule> month_rules;        ///< of those that hold in some months only
  std::span<const float> landing_m;              ///< over water; empty without a landing
  bool weighs_access = false;                    ///< a criterion counts the way to the landing
  const WaveMaps* waves = nullptr;               ///< null where the plan names no winds
  std::span<const float> slope_deg = {};         ///< empty: no criterion looks at it
  const Members* members = nullptr;              ///< null: the best estimate only
  double least_suitability = 0.0;                ///< of a cell where a site may lie
  const MemberVerdict* verdict = nullptr;        ///< on the members, by least_suitability
};

/// Evidence of one tile's cells, row by row, and its windows.
struct TileEvidence {
  std::vector<CellEvidence> cells;
  std::vector<SeasonWindow> windows;    ///< state grows and outplant 0: not grown
  std::vector<float> nitrogen_g_per_m;  ///< NaN: not grown
  std::vector<std::uint16_t> harvests;
  std::vector<float> coverage;  ///< least share of neighbours with data among the layers, 0..1
  std::vector<std::uint8_t> depth_source;  ///< as in TileLayers
  std::vector<float> axis_deg;  ///< of the current, from true north; empty where nothing says
  TileLayers layers;
  std::vector<float> latitudes;                ///< degrees; empty where nothing was grown
  std::vector<std::uint8_t> unknown_property;  ///< as unknown_properties
  std::vector<std::size_t> grown;  ///< cells of the tile that were grown, and for each of them:
  TileForcing forcing;
  KernelResult result;
};

/// Samples, grows and gathers what is known of each cell.
[[nodiscard]] TileEvidence evidence_of(const Tile& tile, const TileJob& job, Worker& worker);

/// Tiles that are done in one go. Members are grown over all of them at once.
struct TileGroup {
  Tile area;
  std::vector<Tile> tiles;  ///< row by row
};
/// Of the whole grid, row by row; a tile each without members.
[[nodiscard]] std::vector<TileGroup> tile_groups(const Grid& grid, bool with_members);

/// evidence_of each tile, scored and written into the maps, whatever stood there, and the spread of
/// the members. Groups do not overlap, so workers may write at once. What the members count.
[[nodiscard]] GroupCounts run_group(const TileGroup& group, const TileJob& job, Worker& worker,
                                    Maps& maps);

}  // namespace tidelot::run
