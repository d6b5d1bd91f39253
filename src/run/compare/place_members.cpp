// SPDX-License-Identifier: Apache-2.0
#include "run/compare/place_members.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "run/compare/bay_json.hpp"
#include "run/landing.hpp"
#include "run/resume/identity.hpp"
#include "run/sites/site_cells.hpp"
#include "run/tiles/wave_stage.hpp"
#include "run/tiles/whole_grid.hpp"
#include "run/workers.hpp"

namespace tidelot::run {
namespace {

constexpr double kMetresPerKilometre = 1000.0;

std::size_t centre_cell(const Site& site, const Grid& grid) {
  const Cell cell = grid.cell_of(site.centre_xy);
  return grid.index(cell.col, cell.row);
}

std::vector<std::size_t> cells_under(const Site& site, const Grid& grid) {
  const Tile whole{0, 0, grid.cols, grid.rows};
  std::vector<std::size_t> cells;
  for_each_cell_under(site, grid, whole, [&](std::size_t i, double) { cells.push_back(i); });
  return cells;
}

/// What the members add to the depth at the best site, m; empty without members or an error.
std::vector<double> depth_shifts(const Bay& bay, const Plan& plan) {
  std::vector<double> shifts;
  const auto depth = std::ranges::find(bay.errors, "depth", &LayerErrors::input);
  if (depth == bay.errors.end() || !(plan.depth.error_m > 0.0)) {
    return shifts;
  }
  for (const double z : depth->z) {
    shifts.push_back(plan.depth.error_m * z);
  }
  return shifts;
}

BayMembers place_members(const Bay& bay, const Plan& plan, const std::vector<double>& shifts,
                         const RunOptions& options) {
  Area area = open_area(plan);
  const Grid& grid = area.layers->grid();
  const GridVector<float> depth = whole_depth(plan, *area.layers);
  const Site site = site_of(bay.sites[0]);
  const int workers = workers_for(options.threads);
  BayMembers out;
  if (plan.sites.landing) {
    const XY landing = landing_place(plan, area);
    const std::size_t cell = centre_cell(site, grid);
    out.landing_km.resize(shifts.size());
    for_each(shifts.size(), workers, options.stop_signal, [&](std::size_t m, int) {
      const double way = way_over_water(area, landing, depth, plan.sites.draft_m - shifts[m])[cell];
      out.landing_km[m] =
          std::isnan(way) ? std::numeric_limits<double>::infinity() : way / kMetresPerKilometre;
    });
  }
  const std::vector<WaveDirection> directions = wave_directions(plan, area);
  if (!directions.empty()) {
    const std::vector<std::size_t> cells = cells_under(site, grid);
    out.wave_50y_m.resize(shifts.size());
    for_each(shifts.size(), workers, options.stop_signal, [&](std::size_t m, int) {
      out.wave_50y_m[m] = highest_wave(plan, area, directions, depth, shifts[m], cells);
    });
  }
  return out;
}

}  // namespace

void add_place_members(FinishedRun& run, const Plan& plan, const std::filesystem::path& folder,
                       const RunOptions& options) {
  const std::vector<double> shifts = depth_shifts(run.bay, plan);
  if (shifts.empty() || (!plan.sites.landing && !plan.waves)) {
    return;
  }
  const BayMembers found =
      members_from(kept_in(folder, "place_members", identity_kept(run.folder), [&] {
        return members_json(place_members(run.bay, plan, shifts, options));
      }));
  run.bay.members.landing_km = found.landing_km;
  run.bay.members.wave_50y_m = found.wave_50y_m;
}

}  // namespace tidelot::run
