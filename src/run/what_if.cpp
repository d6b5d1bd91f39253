// SPDX-License-Identifier: Apache-2.0
#include "run/what_if.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "run/whole_grid.hpp"
#include "run/workers.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"

namespace tidelot::run {
namespace {

constexpr std::uint32_t kRuleBits = ~((1U << closed_bit::kFirstRule) - 1U);

/// Bits of the plan's rules in a cell of closed.tif.
std::uint32_t rules_in(std::uint32_t closed) {
  return closed == kClosedUnknown ? 0U : closed & kRuleBits;
}

/// One rule's shapes on the grid, closed and not known.
struct RuleCells {
  std::uint32_t bit = 0;
  std::vector<std::uint32_t> closed, unknown;

  RuleCells(const ScoredRun& run, const Rules& rules, std::size_t rule)
      : bit(1U << (closed_bit::kFirstRule + rule)),
        closed(run.grid.size(), 0),
        unknown(run.grid.size(), 0) {
    const int number = closed_bit::kFirstRule + static_cast<int>(rule);
    const auto& features = rules.closed[rule].features;
    mark_closed(run.grid, features, Standing::closed, run.scale, number, closed);
    mark_closed(run.grid, features, Standing::unknown, run.scale, number, unknown);
  }
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

/// What the scorer looks at before the criteria, as the maps have it.
CellEvidence evidence_in(const Maps& maps, std::size_t cell) {
  CellEvidence evidence;
  evidence.depth_low_water = static_cast<double>(maps.depth_low_water[cell]);
  evidence.rules = rules_in(maps.closed[cell]);
  evidence.rules_unknown = maps.open->rules_unknown[cell];
  evidence.season_current = static_cast<double>(maps.open->season_current[cell]);
  if (maps.waves != nullptr) {
    evidence.wave_50y_m = static_cast<double>(maps.waves->height_50y_m[cell]);
  }
  return evidence;
}

void look_anew(CellEvidence& evidence, const RuleCells& rule, const Maps& maps, std::size_t cell,
               std::span<const MonthRule> months) {
  std::uint32_t out = 0;
  if (!months.empty() && (rule.closed[cell] | rule.unknown[cell]) != 0) {
    const std::optional<std::uint16_t> season = season_in(maps, cell);
    out = season ? out_of_season(months, *season) : 0U;
  }
  evidence.rules = (evidence.rules & ~rule.bit) | (rule.closed[cell] & ~out);
  evidence.rules_unknown = (evidence.rules_unknown & ~rule.bit) | (rule.unknown[cell] & ~out);
}

double open_hectares(const ScoredRun& run, std::span<const std::uint32_t> closed) {
  std::size_t open = 0;
  for (std::size_t i = 0; i < closed.size(); ++i) {
    open += closed[i] == 0 && !std::isnan(run.maps.open->suitability[i]) ? 1 : 0;
  }
  return static_cast<double>(open) * run.cell_ha;
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
std::optional<Site> best_site(const ScoredRun& run, const Rules& rules,
                              std::span<const std::uint32_t> closed, Projector& to_lonlat) {
  ScoredMaps maps = run.maps.view();
  maps.suitability = run.maps.open->suitability;
  maps.closed = closed;
  const SitesResult found =
      find_sites(rules.plan, run.grid, maps, rules.closed, rules.near, reason_names(rules.plan),
                 to_lonlat, run.geodesy, held_places(run.sites));
  return found.ranked.empty() ? std::nullopt : std::optional<Site>(found.ranked.front());
}

/// A rule or limit moved by a factor: what it does to the water and where its best site lies.
MovedWater moved_water(const ScoredRun& run, const Rules& rules, const Movable& what, double factor,
                       Projector& to_lonlat) {
  const Rules moved = with_moved(rules, what, factor);
  const bool setback = what.of == Movable::Of::setback;
  const auto closed = closed_under(run, moved, setback ? std::optional(what.index) : std::nullopt);
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

std::vector<std::uint32_t> closed_under(const ScoredRun& run, const Rules& rules,
                                        std::optional<std::size_t> moved) {
  std::optional<RuleCells> rule;
  std::vector<MonthRule> months;
  if (moved) {
    rule.emplace(run, rules, *moved);
    months = month_rules(rules.plan);
  }
  std::vector<std::uint32_t> out(run.maps.closed.begin(), run.maps.closed.end());
  for (std::size_t i = 0; i < out.size(); ++i) {
    if (out[i] == kClosedNotWater) {
      continue;
    }
    CellEvidence evidence = evidence_in(run.maps, i);
    if (rule) {
      look_anew(evidence, *rule, run.maps, i, months);
    }
    const auto score = score_if_closed(evidence, rules.plan.farm, rules.plan.depth.lowest_tide_m);
    out[i] = score ? score->closed : 0U;
  }
  return out;
}

WhatIf what_if(const ScoredRun& run, const Rules& rules, int threads,
               const std::atomic<int>* stop_signal) {
  WhatIf out{kMove, run.open_ha, {}, {}};
  if (const Site* planned = best_found(run.sites)) {
    out.yield_t = planned->yield_without_t;
  }
  Rules one_site = rules;
  one_site.plan.sites.count = 1;
  const std::vector<Movable> all = movables(one_site);
  for (const Movable& what : all) {
    out.keys.push_back({what.key, what.name, what.unit, what.value, {}, {}});
  }
  const int count = workers_for(threads);
  std::vector<std::unique_ptr<Projector>> projectors;
  for (int i = 0; i < count; ++i) {
    projectors.push_back(run.to_lonlat.clone());
  }
  for_each(2 * all.size(), count, stop_signal, [&](std::size_t item, int worker) {
    const bool more = item % 2 == 1;
    MovedKey& key = out.keys[item / 2];
    (more ? key.more : key.less) =
        moved_water(run, one_site, all[item / 2], more ? 1.0 + kMove : 1.0 - kMove,
                    *projectors[static_cast<std::size_t>(worker)]);
  });
  return out;
}

}  // namespace tidelot::run
