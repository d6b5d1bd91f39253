// SPDX-License-Identifier: Apache-2.0
#include "run/tile_spread.hpp"

#include <algorithm>
#include <cmath>

#include "tidelot/core/draws.hpp"

namespace tidelot::run {
namespace {

constexpr float kGramsPerKilogram = 1000.0F;

/// One cell's members of one quantity.
Quantiles quantiles_at(const MemberSeasons& seasons, const std::vector<float>& values,
                       std::size_t cell) {
  const auto first = values.begin() + static_cast<std::ptrdiff_t>(seasons.at(cell, 0));
  std::vector<float> members(first, first + static_cast<std::ptrdiff_t>(seasons.members));
  return quantiles_of(members);
}

void put(SpreadBands& bands, std::size_t at, const Quantiles& q, float divisor) {
  bands.p10[at] = static_cast<float>(q.p10) / divisor;
  bands.p50[at] = static_cast<float>(q.p50) / divisor;
  bands.p90[at] = static_cast<float>(q.p90) / divisor;
}

constexpr double kNoError = 6.0;  // standard deviations: no member is off by so much

/// May a site lie where a cell is scored so?
bool is_suitable(float suitability, double least) {
  return suitability > 0.0F && static_cast<double>(suitability) >= least;
}

/// Share of the members in which a site may lie here.
float confidence_of(const std::vector<float>& suitability, double least) {
  const auto suitable = std::count_if(suitability.begin(), suitability.end(),
                                      [&](float s) { return is_suitable(s, least); });
  return static_cast<float>(suitable) / static_cast<float>(suitability.size());
}

void count_cell(const MemberScores& scores, double least, MemberCells& counted) {
  for (std::size_t m = 0; m < scores.open.size(); ++m) {
    counted.open[m] += scores.open[m];
    counted.suitable[m] += is_suitable(scores.suitability[m], least) ? 1 : 0;
  }
}

}  // namespace

MemberScores MemberScorer::operator()(const TileEvidence& evidence, std::size_t k,
                                      const MemberSeasons& seasons, const Deviates& deviates,
                                      std::size_t place) const {
  const CellEvidence& best = evidence.cells[evidence.grown[k]];
  if (best.rules != 0) {
    return {std::vector<float>(members_.size(), 0.0F), std::vector<std::uint8_t>(members_.size())};
  }
  CellEvidence cell = best;
  MemberScores out;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    const std::size_t i = seasons.at(k, m);
    cell.depth_low_water = best.depth_low_water + members_.depth_shift(deviates, place, m);
    cell.season = seasons.state[i];
    cell.yield_kg_per_m = static_cast<double>(seasons.yield_g_per_m[i] / kGramsPerKilogram);
    cell.season_current =
        best.season_current * members_.current_factor(best.season_current, deviates, place, m);
    const CellScore score = (*job_.scorer)(cell);
    const bool is_land = !(cell.depth_low_water > 0.0);
    if (std::isnan(score.suitability) && !is_land) {
      return {};
    }
    out.suitability.push_back(is_land ? 0.0F : score.suitability);
    out.open.push_back(!is_land && score.closed == 0 ? 1 : 0);
  }
  return out;
}

std::vector<TileCell> grown_cells(const Tile& tile, const TileEvidence& evidence) {
  std::vector<TileCell> out;
  for (const std::size_t i : evidence.grown) {
    const int index = static_cast<int>(i);
    out.push_back({index % tile.cols, index / tile.cols});
  }
  return out;
}

std::vector<XY> places_of(const Grid& grid, const Tile& tile, std::span<const TileCell> cells) {
  std::vector<XY> out;
  for (const TileCell& cell : cells) {
    out.push_back(grid.centre(tile.col0 + cell.col, tile.row0 + cell.row));
  }
  return out;
}

void count_member_water(const Tile& tile, const TileJob& job, const TileEvidence& evidence,
                        Worker& worker) {
  const Members& members = *job.members;
  const double sd = members.inputs().layers[static_cast<std::size_t>(ErrorLayer::depth)].sd;
  std::size_t always = 0;
  std::vector<XY> places;
  std::vector<double> depths;
  for (std::size_t i = 0; i < evidence.cells.size(); ++i) {
    const double depth = evidence.cells[i].depth_low_water;
    if (!evidence.cells[i].inside || std::isnan(depth) || depth == 0.0) {
      continue;
    }
    if (std::abs(depth) > kNoError * sd) {
      always += depth > 0.0 ? 1 : 0;
      continue;
    }
    const int index = static_cast<int>(i);
    places.push_back(
        job.grid->centre(tile.col0 + index % tile.cols, tile.row0 + index / tile.cols));
    depths.push_back(depth);
  }
  const Deviates deviates = worker.draws->at(places);
  for (std::size_t m = 0; m < members.size(); ++m) {
    worker.counted.water[m] += always;
    for (std::size_t k = 0; k < depths.size(); ++k) {
      worker.counted.water[m] += depths[k] + members.depth_shift(deviates, k, m) > 0.0 ? 1 : 0;
    }
  }
}

void add_spread(const Tile& tile, const TileJob& job, const TileEvidence& evidence, Worker& worker,
                SpreadMaps& maps) {
  if (evidence.grown.empty()) {
    return;
  }
  const std::vector<TileCell> cells = grown_cells(tile, evidence);
  const std::vector<XY> places = places_of(*job.grid, tile, cells);
  const Members& members = *job.members;
  const MemberSeasons seasons =
      spread_members({evidence.forcing.kernel, evidence.forcing.windows, evidence.result,
                      stocked(job.season->husbandry(), job.season->constants()), cells, places},
                     members, *worker.draws, kSpreadTolerance);
  const MemberScorer scorer(job, members);
  const Deviates deviates = worker.draws->at(places);
  for (std::size_t k = 0; k < cells.size(); ++k) {
    const std::size_t at = job.grid->index(tile.col0 + cells[k].col, tile.row0 + cells[k].row);
    put(maps.yield_kg_per_m, at, quantiles_at(seasons, seasons.yield_g_per_m, k),
        kGramsPerKilogram);
    put(maps.nitrogen_g_per_m, at, quantiles_at(seasons, seasons.nitrogen_g_per_m, k), 1.0F);
    const MemberScores scores = scorer(evidence, k, seasons, deviates, k);
    if (!scores.suitability.empty()) {
      maps.confidence[at] = confidence_of(scores.suitability, job.least_suitability);
      count_cell(scores, job.least_suitability, worker.counted);
    }
  }
}

}  // namespace tidelot::run
