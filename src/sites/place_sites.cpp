// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "sites/along.hpp"
#include "sites/candidates.hpp"
#include "sites/field.hpp"
#include "sites/measure.hpp"
#include "sites/notes.hpp"
#include "sites/select.hpp"
#include "sites/setbacks.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {
namespace {

/// One search: the best places of one kind, measured, numbered from 1 and named S01 or A01 on.
std::vector<Site> search(const Survey& survey, const Siting& siting, Wanted wanted,
                         std::vector<Rectangle>& taken, Refusals& refusals, std::size_t& fitting) {
  const Field field(survey.grid, survey.maps, survey.ground, wanted);
  Candidates candidates(survey.grid, field, siting.footprints, siting.along);
  fitting = candidates.fitting();
  std::vector<Site> sites;
  for (const Placed& place :
       select_places(candidates, siting, field, survey.plan.sites.count, taken, refusals)) {
    Site site = measure_site(survey, place);
    site.rank = static_cast<int>(sites.size()) + 1;
    site.name = fmt::format("{}{:02}", wanted == Wanted::ranked ? 'S' : 'A', site.rank);
    sites.push_back(std::move(site));
  }
  return sites;
}

}  // namespace

SitesResult place_sites(const Plan& plan, const Grid& grid, const ScoredMaps& maps,
                        std::span<const ClosedLayer> closed, std::span<const NearLayer> near,
                        std::span<const std::string> reason_names, Projector& grid_to_lonlat,
                        const Geodesy& geodesy) {
  const SiteSize size = site_size(plan.sites, plan.farm);
  const GroundMap ground = ground_of(plan, maps, size);
  const Survey survey{plan, grid,         maps,           ground,  closed,
                      near, reason_names, grid_to_lonlat, geodesy, size};
  // Lengths of the plan are true metres; on the grid they are a little longer or shorter.
  const double scale = grid_scale(grid, grid_to_lonlat, geodesy);
  const SiteSize on_grid{size.length_m * scale, size.width_m * scale};
  const std::span<const float> axis =
      plan.sites.along_current ? maps.axis_deg : std::span<const float>();
  const std::vector<std::int16_t> along =
      degrees_along(grid, axis, grid_north(grid, grid_to_lonlat, geodesy), on_grid);
  const std::vector<Footprint> footprints = along.empty()
                                                ? footprints_of(on_grid, grid.cell_m)
                                                : footprints_of(on_grid, grid.cell_m, 180);
  const Setbacks setbacks(closed, scale);
  const Proximity proximity(near, scale, grid_to_lonlat, geodesy);
  const Siting siting{grid, on_grid, plan.sites.gap_m * scale, footprints, setbacks, proximity,
                      maps, along};

  SitesResult result;
  result.eligible_cells = ground.count.good;
  result.too_deep_for_size = ground.count.too_deep;
  Refusals refusals;
  std::vector<Rectangle> taken;
  if (layout_of(size, 0.0, plan.farm, plan.sites.line).lines > 0) {
    result.ranked = search(survey, siting, Wanted::ranked, taken, refusals, result.fitting_places);
    if (ground.count.unknown > 0) {
      Refusals unused;
      std::size_t places = 0;
      result.apart = search(survey, siting, Wanted::apart, taken, unused, places);
    }
  }
  result.notes = notes_on(plan, size, ground.count, result, refusals);
  return result;
}

}  // namespace tidelot
