// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/what_if.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "run/tiles/whole_grid.hpp"
#include "run/workers.hpp"
#include "tidelot/core/grid_vector.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/suitability.hpp"

namespace tidelot::run {
namespace {

/// Of a cell: what closes it, its depth, its current, its waves.
constexpr std::size_t kBorneBytes = 4 * sizeof(float);

constexpr std::uint32_t kRuleBits = ~((1U << closed_bit::kFirstRule) - 1U);

/// Bits of the plan's rules in a cell of closed.tif.
std::uint32_t rules_in(std::uint32_t closed) {
  return closed == kClosedUnknown ? 0U : closed & kRuleBits;
}

/// One rule's shapes on the grid, closed and not known, a row at a time from the north.
class RuleRows {
 public:
  RuleRows(const ScoredRun& run, const Rules& rules, std::size_t rule)
      : bit_(1U << (closed_bit::kFirstRule + rule)),
        closed_(runs_of(run, rules, rule, Standing::closed)),
        unknown_(runs_of(run, rules, rule, Standing::unknown)) {}

  [[nodiscard]] std::uint32_t bit() const { return bit_; }

  /// The rule's bit or 0 in each cell of a row, which comes after the one before.
  struct Row {
    std::vector<std::uint32_t> closed, unknown;
  };
  void put(int row, int cols, Row& into) {
    closed_.put(row, cols, bit_, into.closed);
    unknown_.put(row, cols, bit_, into.unknown);
  }

 private:
  /// Runs and how many of them lie in rows that were asked for.
  struct Runs {
    GridVector<CellRun> all;
    std::size_t done = 0;

    void put(int row, int cols, std::uint32_t bit, std::vector<std::uint32_t>& into) {
      into.assign(static_cast<std::size_t>(cols), 0U);
      for (; done < all.size() && all[done].row <= row; ++done) {
        std::fill(into.begin() + all[done].first, into.begin() + all[done].last + 1, bit);
      }
    }
  };
  static Runs runs_of(const ScoredRun& run, const Rules& rules, std::size_t rule,
                      Standing standing) {
    return {closed_runs(run.grid, rules.closed[rule].features, standing, run.scale)};
  }

  std::uint32_t bit_;
  Runs closed_, unknown_;
};

/// What a moved rule says of one cell.
struct RuleMarks {
  std::uint32_t bit, closed, unknown;
};

/// Months of the crop's season in a cell; none where it is not known.
std::optional<std::uint16_t> season_in(const Maps& maps, std::size_t cell) {
  if (std::isnan(maps.yield_kg_per_m[cell])) {
    return std::nullopt;
  }
  if (std::isnan(maps.outplant[cell])) {
    return std::uint16_t{0};
  }
  const int first = static_cast<int>(maps.outplant[cell]);
  const int last = static_cast<int>(maps.last_haul[cell]);
  return months_between(first, last < first ? last + kDaysPerYear : last);
}

double wave_in(const Maps& maps, std::size_t cell) {
  return maps.waves == nullptr ? 0.0 : static_cast<double>(maps.waves->height_50y_m[cell]);
}

/// What the scorer looks at before the criteria, as the maps have it.
CellEvidence evidence_in(const Maps& maps, std::size_t cell) {
  CellEvidence evidence;
  evidence.depth_low_water = static_cast<double>(maps.depth_low_water[cell]);
  evidence.rules = rules_in(maps.closed[cell]);
  evidence.rules_unknown = maps.open->rules_unknown[cell];
  evidence.season_current = static_cast<double>(maps.open->season_current[cell]);
  evidence.wave_50y_m = wave_in(maps, cell);
  return evidence;
}

void look_anew(CellEvidence& evidence, const RuleMarks& marks, const Maps& maps, std::size_t cell,
               std::span<const MonthRule> months) {
  std::uint32_t out = 0;
  if (!months.empty() && (marks.closed | marks.unknown) != 0) {
    const std::optional<std::uint16_t> season = season_in(maps, cell);
    out = season ? out_of_season(months, *season) : 0U;
  }
  evidence.rules = (evidence.rules & ~marks.bit) | (marks.closed & ~out);
  evidence.rules_unknown = (evidence.rules_unknown & ~marks.bit) | (marks.unknown & ~out);
}

/// Calls change(cell, evidence as planned, the rule's marks) for every cell of water whose marks by
/// the moved rule's shapes are others than what the maps hold of it.
template <typename Change>
void for_each_marked_anew(const ScoredRun& run, RuleRows& rule, Change&& change) {
  const Maps& maps = run.maps;
  RuleRows::Row marks;
  std::size_t i = 0;
  for (int row = 0; row < run.grid.rows; ++row) {
    rule.put(row, run.grid.cols, marks);
    for (std::size_t col = 0; col < marks.closed.size(); ++col, ++i) {
      const std::uint32_t closed = rules_in(maps.closed[i]) & rule.bit();
      const std::uint32_t unknown = maps.open->rules_unknown[i] & rule.bit();
      if ((closed != marks.closed[col] || unknown != marks.unknown[col]) &&
          maps.closed[i] != kClosedNotWater) {
        change(i, evidence_in(maps, i),
               RuleMarks{rule.bit(), marks.closed[col], marks.unknown[col]});
      }
    }
    walked_over(marks.closed.size() * 2 * sizeof(std::uint32_t));
  }
}

/// Likewise where what the gear bears closes another way.
template <typename Change>
void for_each_borne_anew(const ScoredRun& run, const FarmPlan& planned, const FarmPlan& moved,
                         double lowest_tide_m, Change&& change) {
  const Maps& maps = run.maps;
  for (int row = 0; row < run.grid.rows; ++row) {
    for (int col = 0; col < run.grid.cols; ++col) {
      const std::size_t i = run.grid.index(col, row);
      if (maps.closed[i] == kClosedNotWater) {
        continue;
      }
      const auto closes =
          [&, depth = static_cast<double>(maps.depth_low_water[i]), wave = wave_in(maps, i),
           current = static_cast<double>(maps.open->season_current[i])](const FarmPlan& farm) {
            return gear_closes(depth, wave, current, lowest_tide_m, farm);
          };
      if (closes(planned) != closes(moved)) {
        change(i, evidence_in(maps, i));
      }
    }
    walked_over(static_cast<std::size_t>(run.grid.cols) * kBorneBytes);
  }
}

/// The best of the sites that the search found, the plan's own boxes left out; null: none.
const Site* best_found(const SitesResult& sites) {
  const auto best = std::find_if(sites.ranked.begin(), sites.ranked.end(),
                                 [](const Site& site) { return site.own == 0; });
  return best == sites.ranked.end() ? nullptr : &*best;
}

/// Where own boxes are ranked as planned: they stay while others are looked for.
std::vector<std::array<XY, 4>> held_places(const SitesResult& sites) {
  std::vector<std::array<XY, 4>> held;
  for (const Site& site : sites.ranked) {
    if (site.own > 0) {
      held.push_back(site.corners_xy);
    }
  }
  return held;
}

/// The best site on water closed like this.
std::optional<Site> best_site(const ScoredRun& run, const Rules& rules, const ClosedChanges& moved,
                              Projector& to_lonlat) {
  ScoredMaps maps = run.maps.view();
  maps.suitability = run.maps.open->suitability;
  if (!moved.cells().empty()) {
    maps.closed = ClosedCells(run.maps.closed, moved);
  }
  return run.search.best({rules.plan, maps, rules.closed, rules.near, moved.cells()},
                         held_places(run.sites), to_lonlat);
}

/// Hectares open and scored.
double open_hectares(const ScoredRun& run, const ClosedChanges& moved) {
  std::size_t open = run.open_cells;
  for (std::size_t k = 0; k < moved.cells().size(); ++k) {
    const std::size_t i = moved.cells()[k];
    if (!std::isnan(run.maps.open->suitability[i])) {
      open += moved.codes()[k] == 0 ? 1 : 0;
      open -= run.maps.closed[i] == 0 ? 1 : 0;
    }
  }
  return static_cast<double>(open) * run.cell_ha;
}

/// A rule or limit moved by a factor: what it does to the water and where its best site lies.
MovedWater moved_water(const ScoredRun& run, const Rules& rules, const Movable& what, double factor,
                       Projector& to_lonlat) {
  const Rules moved = with_moved(rules, what, factor);
  const ClosedChanges closed = moved_closed(run, rules, moved, what);
  MovedWater out{moved_value(what, factor), open_hectares(run, closed), {}, {}};
  const std::optional<Site> best = best_site(run, moved, closed, to_lonlat);
  if (best) {
    out.yield_t = best->yield_without_t;
  }
  if (const Site* planned = best_found(run.sites); best && planned != nullptr) {
    out.offset_m = run.geodesy.distance_m(planned->centre, best->centre);
  }
  return out;
}

}  // namespace

ClosedChanges moved_closed(const ScoredRun& run, const Rules& planned, const Rules& moved,
                           const Movable& what) {
  const FarmPlan& farm = moved.plan.farm;
  const double lowest_tide_m = moved.plan.depth.lowest_tide_m;
  ClosedChanges out(run.grid.size());
  const auto change = [&](std::size_t cell, const CellEvidence& evidence) {
    const auto score = score_if_closed(evidence, farm, lowest_tide_m);
    const std::uint32_t closed = score ? score->closed : 0U;
    if (closed != run.maps.closed[cell]) {
      out.add(cell, closed);
    }
  };
  if (what.of == Movable::Of::setback) {
    RuleRows rule(run, moved, what.index);
    const std::vector<MonthRule> months = month_rules(moved.plan);
    for_each_marked_anew(run, rule,
                         [&](std::size_t cell, CellEvidence evidence, const RuleMarks& marks) {
                           look_anew(evidence, marks, run.maps, cell, months);
                           change(cell, evidence);
                         });
  } else if (what.of != Movable::Of::near && what.of != Movable::Of::suitability) {
    for_each_borne_anew(run, planned.plan.farm, farm, lowest_tide_m, change);
  }
  return out;
}

WhatIf what_if(const ScoredRun& run, const Rules& rules, int threads,
               const std::atomic<int>* stop_signal) {
  WhatIf out{kMove, static_cast<double>(run.open_cells) * run.cell_ha, {}, {}};
  if (const Site* planned = best_found(run.sites)) {
    out.yield_t = planned->yield_without_t;
  }
  const std::vector<Movable> all = movables(rules);
  for (const Movable& what : all) {
    out.keys.push_back({what.key, what.name, what.unit, what.value, {}, {}});
  }
  const int count = workers_for(threads);
  std::vector<std::unique_ptr<Projector>> projectors;
  projectors.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    projectors.push_back(run.to_lonlat.clone());
  }
  for_each(2 * all.size(), count, stop_signal, [&](std::size_t item, int worker) {
    const bool more = item % 2 == 1;
    MovedKey& key = out.keys[item / 2];
    (more ? key.more : key.less) =
        moved_water(run, rules, all[item / 2], more ? 1.0 + kMove : 1.0 - kMove,
                    *projectors[static_cast<std::size_t>(worker)]);
  });
  return out;
}

}  // namespace tidelot::run
