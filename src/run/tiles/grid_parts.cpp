// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/grid_parts.hpp"

#include <utility>

#include "run/tiles/wave_stage.hpp"
#include "tidelot/criteria/criterion_kind.hpp"

namespace tidelot::run {

GridParts::GridParts(const Plan& plan, Area& area, int threads, const std::atomic<int>* stop_signal)
    : plan_(plan),
      grid_(area.layers->grid()),
      season_(plan),
      scorer_(plan),
      rules_(rule_bits(area, Standing::closed)),
      rules_unknown_(rule_bits(area, Standing::unknown)),
      month_rules_(tidelot::run::month_rules(plan)) {
  GridVector<float> depth = whole_depth(plan, *area.layers);
  waves_ = wave_maps(plan, area, depth, threads, stop_signal);
  slope_deg_ = slope_of(plan, area, depth);
  landing_m_ = landing_distance(plan, area, std::move(depth));
  if (plan.uncertainty.draws > 0) {
    members_.emplace(plan, uncertain_inputs(plan, area.layers->reports()));
    verdict_.emplace(plan, plan_.sites.min_suitability);
  }
}

TileJob GridParts::job() const {
  return {.grid = &grid_,
          .season = &season_,
          .scorer = &scorer_,
          .rules = rules_,
          .rules_unknown = rules_unknown_,
          .month_rules = month_rules_,
          .landing_m = landing_m_,
          .weighs_access = weighs(plan_, CriterionKind::access),
          .waves = waves(),
          .slope_deg = slope_deg_,
          .members = members(),
          .least_suitability = plan_.sites.min_suitability,
          .verdict = verdict_ ? &*verdict_ : nullptr};
}

std::vector<Worker> workers_of(const Plan& plan, const Area& area, const TileJob& job, int count) {
  std::vector<Worker> workers;
  for (int i = 0; i < count; ++i) {
    workers.push_back({area.layers->clone(), area.to_lonlat->clone(), std::nullopt});
    if (job.members != nullptr) {
      workers.back().draws.emplace(plan.uncertainty, job.members->inputs(), area.middle);
    }
  }
  return workers;
}

}  // namespace tidelot::run
