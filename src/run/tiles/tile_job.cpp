// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/tile_job.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "run/area.hpp"
#include "run/members/tile_spread.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::run {
namespace {

constexpr double kUnknown = std::numeric_limits<double>::quiet_NaN();
constexpr float kUnknownFloat = std::numeric_limits<float>::quiet_NaN();

std::size_t grid_index(const Grid& grid, const Tile& tile, std::size_t i) {
  const int row = static_cast<int>(i / static_cast<std::size_t>(tile.cols));
  const int col = static_cast<int>(i % static_cast<std::size_t>(tile.cols));
  return grid.index(tile.col0 + col, tile.row0 + row);
}

/// The first thing that is not known and that the cell's score or growth needs. property: of the
/// water's, 0 when all are known.
std::uint8_t first_unknown(const TileJob& job, const TileLayers& layers, std::size_t cell,
                           double landing_km, std::uint8_t property) {
  if (property != 0) {
    return property;
  }
  for (const std::vector<float>& own : layers.own) {
    if (std::isnan(own[cell])) {
      return reason::kOwnUnknown;
    }
  }
  return job.weighs_access && std::isnan(landing_km) ? reason::kAccessUnknown : std::uint8_t{0};
}

std::uint32_t bits_at(std::span<const std::uint32_t> bits, std::size_t cell) {
  return bits.empty() ? 0U : bits[cell];
}

CellEvidence bare_evidence(const Tile& tile, const TileJob& job, const TileLayers& layers,
                           std::size_t i, std::uint8_t unknown_property) {
  const std::size_t at = grid_index(*job.grid, tile, i);
  CellEvidence cell;
  cell.depth_low_water = layers.depth_low_water[i];
  cell.inside = layers.inside[i] != 0;
  cell.rules = bits_at(job.rules, at);
  cell.rules_unknown = bits_at(job.rules_unknown, at);
  cell.landing_km = job.landing_m.empty() ? kUnknown : job.landing_m[at] / 1000.0;
  if (job.waves != nullptr) {
    cell.wave_50y_m = job.waves->height_50y_m[at];
  }
  if (!job.slope_deg.empty()) {
    cell.slope_deg = static_cast<double>(job.slope_deg[at]);
  }
  cell.unknown = first_unknown(job, layers, i, cell.landing_km, unknown_property);
  cell.yield_kg_per_m = kUnknown;
  cell.season_current = kUnknown;
  for (const std::vector<float>& own : layers.own) {
    cell.own.push_back(own[i]);
  }
  return cell;
}

void lower_to(std::vector<float>& coverage, const std::vector<float>& share) {
  for (std::size_t i = 0; i < share.size(); ++i) {
    coverage[i] = std::min(coverage[i], share[i]);
  }
}

/// The layer with the fewest neighbours decides.
std::vector<float> coverage_of(const TileLayers& layers) {
  std::vector<float> coverage = layers.depth_share;
  for (const MonthlyTile* tile :
       {&layers.temperature, &layers.salinity, &layers.attenuation, &layers.nitrogen,
        &layers.ammonium, &layers.current, &layers.radiation}) {
    lower_to(coverage, tile->share);
  }
  for (const std::vector<float>& share : layers.own_share) {
    lower_to(coverage, share);
  }
  return coverage;
}

/// Cells of the tile that can be grown: water inside the outline, every property known.
std::vector<std::size_t> growable(const std::vector<CellEvidence>& cells,
                                  std::span<const std::uint8_t> unknown_property) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (cells[i].inside && cells[i].depth_low_water > 0.0 && unknown_property[i] == 0) {
      out.push_back(i);
    }
  }
  return out;
}

void lift_month_rules(CellEvidence& cell, const SeasonWindow& window,
                      std::span<const MonthRule> rules) {
  if (rules.empty()) {
    return;
  }
  const bool grows = window.state == SeasonState::grows;
  const std::uint32_t out =
      out_of_season(rules, grows ? months_between(window.outplant, window.last_haul) : 0U);
  cell.rules &= ~out;
  cell.rules_unknown &= ~out;
}

void add_growth(TileEvidence& tile, std::span<const std::size_t> chosen,
                const LimitThresholds& limits) {
  const TileForcing& forcing = tile.forcing;
  const KernelResult& grown = tile.result;
  for (std::size_t k = 0; k < chosen.size(); ++k) {
    CellEvidence& cell = tile.cells[chosen[k]];
    cell.season = forcing.windows[k].state;
    cell.season_current = forcing.season_current[k];
    cell.warm = forcing.season_temperature[k] >= limits.t_opt;
    cell.salty = forcing.season_salinity[k] >= limits.salinity_best;
    cell.yield_kg_per_m = grown.yield_g_per_m[k] / 1000.0;
    for (std::size_t f = 0; f < kFactors; ++f) {
      cell.mean_factor[f] = grown.mean_factor[f][k];
    }
    tile.windows[chosen[k]] = forcing.windows[k];
    tile.nitrogen_g_per_m[chosen[k]] = grown.nitrogen_g_per_m[k];
    tile.harvests[chosen[k]] = grown.harvests[k];
  }
}

}  // namespace

void MemberCells::add(const MemberCells& other) {
  const auto add_to = [](std::vector<std::size_t>& sum, const std::vector<std::size_t>& more) {
    std::transform(sum.begin(), sum.end(), more.begin(), sum.begin(), std::plus<>());
  };
  add_to(water, other.water);
  add_to(open, other.open);
  add_to(suitable, other.suitable);
}

void GroupCounts::add(const GroupCounts& other) {
  cells.add(other.cells);
  lattice.add(other.lattice);
}

TileEvidence evidence_of(const Tile& tile, const TileJob& job, Worker& worker) {
  TileEvidence out;
  out.layers = worker.layers->sample(tile);
  const TileLayers& layers = out.layers;
  out.cells.reserve(tile.size());
  out.unknown_property = unknown_properties(layers, tile.size());
  for (std::size_t i = 0; i < tile.size(); ++i) {
    out.cells.push_back(bare_evidence(tile, job, layers, i, out.unknown_property[i]));
  }
  out.windows.resize(tile.size());
  out.nitrogen_g_per_m.assign(tile.size(), kUnknownFloat);
  out.harvests.assign(tile.size(), 0);
  out.coverage = coverage_of(layers);
  out.depth_source = layers.depth_source;
  out.axis_deg = layers.current_axis_deg;
  out.grown = growable(out.cells, out.unknown_property);
  const std::vector<std::size_t>& chosen = out.grown;
  if (!chosen.empty()) {
    out.latitudes = latitudes_of(*job.grid, tile, *worker.to_lonlat);
    std::vector<float> latitudes;
    latitudes.reserve(chosen.size());
    for (const std::size_t i : chosen) {
      latitudes.push_back(out.latitudes[i]);
    }
    out.forcing = tile_forcing(layers, chosen, latitudes, *job.season);
    out.result = grow_tile(out.forcing.kernel, job.season->husbandry(), job.season->constants());
    add_growth(out, chosen, job.season->limits());
    for (std::size_t k = 0; k < chosen.size(); ++k) {
      lift_month_rules(out.cells[chosen[k]], out.forcing.windows[k], job.month_rules);
    }
  }
  return out;
}

namespace {

/// Scores the best estimate of a tile and writes it into the maps.
void write_tile(const Tile& tile, const TileJob& job, const TileEvidence& evidence, Maps& maps) {
  for (std::size_t i = 0; i < tile.size(); ++i) {
    const CellEvidence& cell = evidence.cells[i];
    const CellScore score = (*job.scorer)(cell);
    const std::size_t at = grid_index(*job.grid, tile, i);
    maps.suitability[at] = score.suitability;
    if (!maps.lowest.empty()) {
      maps.lowest[at] = score.lowest;
    }
    if (maps.open && score.closed != kClosedNotWater) {
      maps.open->suitability[at] =
          score.closed == 0 ? score.suitability : job.scorer->if_open(cell).suitability;
      maps.open->season_current[at] = static_cast<float>(cell.season_current);
      maps.open->rules_unknown[at] = cell.rules_unknown;
    }
    maps.closed[at] = score.closed;
    maps.reason[at] = score.reason;
    if (!maps.axis_deg.empty() && !evidence.axis_deg.empty()) {
      maps.axis_deg[at] = evidence.axis_deg[i];
    }
    if (!evidence.depth_source.empty() && cell.inside) {
      maps.depth_source[at] = evidence.depth_source[i];
    }
    if (cell.inside && !(cell.depth_low_water <= 0.0)) {
      maps.coverage[at] = evidence.coverage[i];
    }
    if (cell.inside && cell.depth_low_water > 0.0) {
      maps.depth_low_water[at] = static_cast<float>(cell.depth_low_water);
      maps.yield_kg_per_m[at] = static_cast<float>(cell.yield_kg_per_m);
      maps.nitrogen_g_per_m[at] = evidence.nitrogen_g_per_m[i];
    }
    const SeasonWindow& window = evidence.windows[i];
    if (window.days() > 0 && window.outplant > 0) {
      maps.outplant[at] = static_cast<float>(window.outplant);
      maps.last_haul[at] = static_cast<float>(wrapped_day(window.last_haul));
      maps.harvests[at] = static_cast<float>(evidence.harvests[i]);
    }
  }
}

}  // namespace

std::vector<TileGroup> tile_groups(const Grid& grid, bool with_members) {
  const int side = tile_side(grid);
  std::vector<TileGroup> groups;
  for (const Tile& area : tiles_of(grid, with_members ? side * group_side(grid) : side)) {
    TileGroup& group = groups.emplace_back(TileGroup{area, {}});
    for (int row = 0; row < area.rows; row += side) {
      for (int col = 0; col < area.cols; col += side) {
        group.tiles.push_back({area.col0 + col, area.row0 + row, std::min(side, area.cols - col),
                               std::min(side, area.rows - row)});
      }
    }
  }
  return groups;
}

GroupCounts run_group(const TileGroup& group, const TileJob& job, Worker& worker, Maps& maps) {
  maps.clear(*job.grid, group.area);
  worker.counted = {MemberCells(job.members != nullptr ? job.members->size() : 0), {}};
  std::vector<TileEvidence> evidence;
  for (const Tile& tile : group.tiles) {
    evidence.push_back(evidence_of(tile, job, worker));
    write_tile(tile, job, evidence.back(), maps);
    if (job.members != nullptr) {
      count_member_water(tile, job, evidence.back(), worker);
    }
  }
  if (job.members != nullptr) {
    add_spread(group, job, evidence, worker, *maps.spread);
  }
  return worker.counted;
}

}  // namespace tidelot::run
