// SPDX-License-Identifier: Apache-2.0
#include "run/members/tile_spread.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "run/members/group_water.hpp"
#include "run/members/member_lattice.hpp"
#include "tidelot/core/draws.hpp"

namespace tidelot::run {
namespace {

constexpr float kGramsPerKilogram = 1000.0F;

constexpr double kNoError = 6.0;  // standard deviations: no member is off by so much

/// May a site lie where a cell is scored so?
bool is_suitable(float suitability, double least) {
  return suitability > 0.0F && static_cast<double>(suitability) >= least;
}

/// Writes the members of one group's cells into the maps and counts them.
class SpreadWriter {
 public:
  SpreadWriter(const TileGroup& group, const TileJob& job, const GroupWater& water,
               LayerDraws& draws, SpreadMaps& maps);
  /// False: too many members' verdicts hang on how well they lie between others.
  [[nodiscard]] bool take(const MembersHere& here);
  void add_to(MemberCells& counted) const;
  [[nodiscard]] XY place(std::uint32_t cell) const;

 private:
  [[nodiscard]] std::size_t grid_index(std::uint32_t cell) const;
  void write_figures(const SpreadFigures& figures, std::size_t at);
  void set_errors(const CellEvidence& cell, std::uint32_t where, MembersOfCell& members);
  void score_each(const CellEvidence& cell, const MembersHere& here);
  void count_all();
  void set_shifts(std::span<const float> z);

  const TileGroup& group_;
  const TileJob& job_;
  const Members& members_;
  const GroupWater& water_;
  LayerDraws& draws_;
  SpreadMaps& maps_;
  std::size_t may_turn_;  ///< members
  std::vector<float> shift_m_, current_z_;
  float least_shift_m_ = 0.0F, most_shift_m_ = 0.0F;
  MemberVerdicts verdicts_;
  std::vector<float> open_, suitable_;  ///< cells of each member; a float counts a group exactly
};

std::vector<float> padded(std::span<const float> values, double factor, std::size_t size) {
  std::vector<float> out(size, std::numeric_limits<float>::quiet_NaN());
  std::transform(values.begin(), values.end(), out.begin(),
                 [&](float z) { return static_cast<float>(factor * z); });
  return out;
}

SpreadWriter::SpreadWriter(const TileGroup& group, const TileJob& job, const GroupWater& water,
                           LayerDraws& draws, SpreadMaps& maps)
    : group_(group),
      job_(job),
      members_(*job.members),
      water_(water),
      draws_(draws),
      maps_(maps),
      may_turn_(std::max<std::size_t>(
          1, static_cast<std::size_t>(kConfidenceTolerance *
                                      static_cast<double>(job.members->size())))) {
  const std::size_t size = padded_members(members_.size());
  for (auto* values : {&verdicts_.open, &verdicts_.suitable, &open_, &suitable_}) {
    values->resize(size);
  }
  if (draws.everywhere()) {
    set_shifts(draws.at(ErrorLayer::depth, {}));
    current_z_ = padded(draws.at(ErrorLayer::current, {}), 1.0, size);
  }
}

std::size_t SpreadWriter::grid_index(std::uint32_t cell) const {
  const int index = static_cast<int>(cell);
  return job_.grid->index(group_.area.col0 + index % group_.area.cols,
                          group_.area.row0 + index / group_.area.cols);
}

XY SpreadWriter::place(std::uint32_t cell) const {
  const int index = static_cast<int>(cell);
  return job_.grid->centre(group_.area.col0 + index % group_.area.cols,
                           group_.area.row0 + index / group_.area.cols);
}

void SpreadWriter::write_figures(const SpreadFigures& figures, std::size_t at) {
  maps_.yield_kg_per_m.p10[at] = figures[0] / kGramsPerKilogram;
  maps_.yield_kg_per_m.p50[at] = figures[1] / kGramsPerKilogram;
  maps_.yield_kg_per_m.p90[at] = figures[2] / kGramsPerKilogram;
  maps_.nitrogen_g_per_m.p10[at] = figures[3];
  maps_.nitrogen_g_per_m.p50[at] = figures[4];
  maps_.nitrogen_g_per_m.p90[at] = figures[5];
}

void SpreadWriter::set_errors(const CellEvidence& cell, std::uint32_t where,
                              MembersOfCell& members) {
  if (!draws_.everywhere()) {
    const std::size_t size = padded_members(members_.size());
    set_shifts(draws_.at(ErrorLayer::depth, place(where)));
    if (job_.verdict->uses_current()) {
      current_z_ = padded(draws_.at(ErrorLayer::current, place(where)), 1.0, size);
    }
  }
  members.depth_shift_m = shift_m_.data();
  members.least_shift_m = least_shift_m_;
  members.most_shift_m = most_shift_m_;
  members.current_z = current_z_.data();
  if (job_.verdict->uses_current()) {
    members.current_spread = static_cast<float>(
        lognormal_spread(members_.variation(ErrorLayer::current, cell.season_current)));
  }
}

void SpreadWriter::set_shifts(std::span<const float> z) {
  shift_m_ = padded(z, members_.sd(ErrorLayer::depth), padded_members(z.size()));
  const auto last = shift_m_.begin() + static_cast<std::ptrdiff_t>(z.size());
  least_shift_m_ = *std::min_element(shift_m_.begin(), last);
  most_shift_m_ = *std::max_element(shift_m_.begin(), last);
}

void SpreadWriter::count_all() {
  for (std::size_t m = 0; m < open_.size(); ++m) {
    open_[m] += verdicts_.open[m];
    suitable_[m] += verdicts_.suitable[m];
  }
}

/// A cell that only Scorer can tell.
void SpreadWriter::score_each(const CellEvidence& cell, const MembersHere& here) {
  std::vector<float> yield(members_.size(), 0.0F);
  std::vector<SeasonState> state(members_.size(), SeasonState::grows);
  for (std::size_t m = 0; m < yield.size(); ++m) {
    for (std::size_t k = 0; k < here.share.size(); ++k) {
      yield[m] += here.share[k] != 0.0F ? here.share[k] * here.yield_g_per_m[k][m] : 0.0F;
    }
    if (std::isnan(yield[m])) {
      yield[m] = 0.0F;
      state[m] = SeasonState::too_cold;  // any that is no season
    }
  }
  const XY at = place(here.cell);
  const MemberScores scores =
      MemberScorer(job_, members_)(cell, {yield, state}, draws_.at({&at, 1}), 0);
  if (scores.suitability.empty()) {
    return;
  }
  std::size_t suitable = 0;
  for (std::size_t m = 0; m < scores.open.size(); ++m) {
    const bool good = is_suitable(scores.suitability[m], job_.least_suitability);
    suitable += good ? 1 : 0;
    open_[m] += scores.open[m];
    suitable_[m] += good ? 1.0F : 0.0F;
  }
  maps_.confidence[grid_index(here.cell)] =
      static_cast<float>(suitable) / static_cast<float>(members_.size());
}

bool SpreadWriter::take(const MembersHere& here) {
  const CellEvidence& cell = water_.evidence(here.cell);
  const std::size_t at = grid_index(here.cell);
  if (cell.rules != 0) {
    maps_.confidence[at] = 0.0F;  // closed to all members
  } else if (job_.verdict->can_tell(cell)) {
    MembersOfCell members{here.yield_g_per_m, here.share, here.off_g_per_m};
    set_errors(cell, here.cell, members);
    (*job_.verdict)(cell, members, verdicts_);
    if (here.off_g_per_m > 0.0F && verdicts_.unsure > may_turn_) {
      return false;
    }
    if (!verdicts_.close) {
      count_all();
      maps_.confidence[at] =
          static_cast<float>(verdicts_.suitable_count) / static_cast<float>(members_.size());
    } else {
      score_each(cell, here);
    }
  } else {
    score_each(cell, here);
  }
  write_figures(here.figures, at);
  return true;
}

void SpreadWriter::add_to(MemberCells& counted) const {
  for (std::size_t m = 0; m < members_.size(); ++m) {
    counted.open[m] += static_cast<std::size_t>(open_[m]);
    counted.suitable[m] += static_cast<std::size_t>(suitable_[m]);
  }
}

}  // namespace

MemberScores MemberScorer::operator()(const CellEvidence& best, const MemberYields& seasons,
                                      const Deviates& deviates, std::size_t place) const {
  if (best.rules != 0) {
    return {std::vector<float>(members_.size(), 0.0F), std::vector<std::uint8_t>(members_.size())};
  }
  CellEvidence cell = best;
  MemberScores out;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    cell.depth_low_water = best.depth_low_water + members_.depth_shift(deviates, place, m);
    cell.season = seasons.state[m];
    cell.yield_kg_per_m = static_cast<double>(seasons.yield_g_per_m[m] / kGramsPerKilogram);
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
    worker.counted.cells.water[m] += always;
    for (std::size_t k = 0; k < depths.size(); ++k) {
      worker.counted.cells.water[m] +=
          depths[k] + members.depth_shift(deviates, k, m) > 0.0 ? 1 : 0;
    }
  }
}

void add_spread(const TileGroup& group, const TileJob& job, std::span<const TileEvidence> evidence,
                Worker& worker, SpreadMaps& maps) {
  MemberGround ground;
  ground.cols = group.area.cols;
  ground.rows = group.area.rows;
  const GroupWater water(group, evidence, *job.season);
  bool any = false;
  for (std::uint32_t cell = 0; cell < group.area.size(); ++cell) {
    const bool wanted = water.spot(cell).grown != GroupWater::kNotGrown;
    ground.wanted.push_back(wanted ? 1 : 0);
    any = any || wanted;
  }
  if (!any) {
    return;
  }
  SpreadWriter writer(group, job, water, *worker.draws, maps);
  ground.known = [&](std::uint32_t cell) { return water.known(cell); };
  ground.water = [&](std::span<const std::uint32_t> cells) { return water(cells); };
  ground.place = [&](std::uint32_t cell) { return writer.place(cell); };
  ground.stocked = stocked(job.season->husbandry(), job.season->constants());
  worker.counted.lattice.add(
      tell_members(ground, *job.members, *worker.draws, kSpreadTolerance,
                   [&](const MembersHere& here) { return writer.take(here); }));
  writer.add_to(worker.counted.cells);
}

}  // namespace tidelot::run
