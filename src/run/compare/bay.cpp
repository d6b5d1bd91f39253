// SPDX-License-Identifier: Apache-2.0
#include "run/compare/bay.hpp"

#include <algorithm>
#include <functional>
#include <utility>

#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::run {
namespace {

std::vector<LostWater> lost_water(const RunSummary& summary, double cell_ha) {
  const RunCounts& counts = summary.counts;
  std::vector<LostWater> out;
  for (std::size_t bit = 0; bit < counts.closed_by_bit.size(); ++bit) {
    if (counts.closed_by_bit[bit] > 0) {
      out.push_back({summary.closed_bit_names[bit],
                     static_cast<double>(counts.closed_by_bit[bit]) * cell_ha,
                     static_cast<double>(counts.closed_only_by_bit[bit]) * cell_ha});
    }
  }
  return out;
}

BaySite bay_site(const Site& site) {
  const auto& together = site.with_neighbours;
  return {site.name,
          site.own > 0,
          site.centre,
          account_of(site),
          site.yield_t,
          together ? together->nitrogen_kg : site.nitrogen_kg,
          together ? together->yield_t : site.yield_t,
          site.layout.lines,
          site.suitability,
          site.outplant,
          site.last_haul,
          {site.corners.begin(), site.corners.end()},
          {site.corners_xy.begin(), site.corners_xy.end()},
          site.centre_xy,
          site.gear.middle,
          site.angle_deg,
          site.layout.usable_m,
          site.depth_min_m,
          site.depth_max_m};
}

/// The reason of most water cells, where no site was found; "" where most are at their best, so
/// that only the room is missing.
std::string most_frequent_reason(const RunSummary& summary) {
  const std::vector<std::size_t>& cells = summary.counts.by_reason;
  if (cells.size() <= reason::kDepthUnknown) {
    return "";
  }
  const auto most = std::max_element(cells.begin() + reason::kDepthUnknown, cells.end());
  const auto code = static_cast<std::size_t>(most - cells.begin());
  return *most == 0 || code == reason::kNothing ? "" : summary.reason_names[code];
}

/// Members' nitrogen of the ranked sites, each by itself; empty without members.
std::vector<double> added_up(const std::vector<Site>& ranked) {
  std::vector<double> sum;
  for (const Site& site : ranked) {
    if (site.spread) {
      const std::vector<double>& one = site.spread->members.nitrogen_kg;
      sum.resize(one.size(), 0.0);
      std::transform(sum.begin(), sum.end(), one.begin(), sum.begin(), std::plus<>());
    }
  }
  return sum;
}

void add_best(const Site& best, Bay& bay) {
  bay.landing_km = best.landing_km;
  if (best.waves) {
    bay.wave_50y_m = best.waves->height_50y_m;
  }
  if (best.spread) {
    bay.best_members = best.spread->members;
    bay.errors = best.spread->layers;
  }
}

}  // namespace

std::vector<double> hectares(const std::vector<std::size_t>& cells, double cell_ha) {
  std::vector<double> out;
  out.reserve(cells.size());
  for (const std::size_t count : cells) {
    out.push_back(static_cast<double>(count) * cell_ha);
  }
  return out;
}

Bay bay_of(const Plan& plan, double areal_scale, const RunSummary& summary, BayMembers members) {
  const double cell_ha = summary.grid.cell_m * summary.grid.cell_m / areal_scale / 1e4;
  const std::vector<Site>& ranked = summary.sites.ranked;
  Bay bay;
  bay.title = plan.title;
  bay.waterbody = plan.report.waterbody;
  bay.crop = plan.crop.name;
  bay.water_ha = summary.counts.water_ha;
  bay.open_ha = summary.counts.open_ha;
  bay.unknown_ha = static_cast<double>(summary.counts.unknown) * cell_ha;
  bay.suitable_ha =
      static_cast<double>(summary.sites.eligible_cells + summary.sites.too_deep_for_size) * cell_ha;
  bay.water_certain = !(plan.depth.error_m > 0.0);
  bay.open_certain = bay.water_certain && !plan.farm.max_current_m_s;
  bay.lost = lost_water(summary, cell_ha);
  bay.draws = plan.uncertainty.draws;
  bay.seed = plan.uncertainty.seed;
  for (const Site& site : ranked) {
    bay.sites.push_back(bay_site(site));
  }
  bay.members = std::move(members);
  bay.members.alone_kg = added_up(ranked);
  bay.load = plan.load;
  bay.money = plan.money;
  if (ranked.empty()) {
    bay.held_back_by = most_frequent_reason(summary);
    return bay;
  }
  bay.all = account_of_all(ranked, summary.sites.set_spread);
  if (summary.sites.set_spread) {
    bay.all_members = summary.sites.set_spread->members;
  }
  add_best(ranked.front(), bay);
  return bay;
}

}  // namespace tidelot::run
