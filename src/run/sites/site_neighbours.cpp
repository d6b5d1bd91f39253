// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_neighbours.hpp"

#include <algorithm>

#include "tidelot/sites/neighbours.hpp"

namespace tidelot::run {
namespace {

/// The sites as farms of one bay, in the order of its axis.
struct SharedBay {
  std::vector<const SiteWater*> sites;
  std::vector<FarmOfBay> farms;
  std::vector<WaterPath> paths;
};

/// A season's first day counted so that its middle lies nearest to that of the first one: seasons
/// over the new year meet those that begin after it.
int first_day(const SeasonWindow& window, const SeasonWindow& other) {
  const int apart = window.outplant + window.last_haul - other.outplant - other.last_haul;
  const int shift = apart > kDaysPerYear ? -kDaysPerYear : apart < -kDaysPerYear ? kDaysPerYear : 0;
  return window.outplant + shift;
}

SharedBay shared_bay(std::span<const SiteWater> sites, const Plan& plan, const SeasonSetup& setup) {
  std::vector<Site> placed;
  std::vector<FarmShape> shapes;
  for (const SiteWater& one : sites) {
    placed.push_back(*one.site);
    shapes.push_back(farm_shape(one.site->layout, plan.farm, setup.constants()));
  }
  Neighbours neighbours = neighbours_of(placed, shapes);
  SharedBay bay;
  bay.paths = std::move(neighbours.paths);
  for (const std::size_t i : neighbours.order) {
    const SeasonWindow& window = sites[i].water.forcing.windows[0];
    bay.sites.push_back(&sites[i]);
    bay.farms.push_back({days_in(sites[i].water, window, setup),
                         first_day(window, sites[0].water.forcing.windows[0]), shapes[i]});
  }
  return bay;
}

/// Does half a tide carry water down this path on any day of the season above it?
bool comes_so_far(const WaterPath& path, const FarmOfBay& from) {
  return std::any_of(from.days.begin(), from.days.end(), [&](const DayForcing& day) {
    return path.distance_m < day.current * kHalfTide_s;
  });
}

std::vector<std::string> names_of_those_above(const SharedBay& bay, std::size_t to) {
  std::vector<std::string> names;
  for (const WaterPath& path : bay.paths) {
    if (path.to == to && comes_so_far(path, bay.farms[path.from])) {
      names.push_back(bay.sites[path.from]->site->name);
    }
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

void add_neighbours(std::span<const SiteWater> sites, const Plan& plan, const SeasonSetup& setup) {
  if (sites.empty()) {
    return;
  }
  const SharedBay bay = shared_bay(sites, plan, setup);
  const Stocked put_out = stocked(setup.husbandry(), setup.constants());
  const std::vector<FarmResult> together =
      grow_farms(bay.farms, bay.paths, setup.husbandry(), setup.constants());
  for (std::size_t i = 0; i < bay.sites.size(); ++i) {
    Site& site = *bay.sites[i]->site;
    const SeasonResult alone = grow_season(bay.farms[i].days, setup.husbandry(), setup.constants());
    const SiteFigures figures = site_figures(per_metre(site), site.layout.line_m, {alone, put_out},
                                             {together[i].per_m, put_out});
    site.with_neighbours =
        WithNeighbours{figures.yield_t, figures.nitrogen_kg, names_of_those_above(bay, i)};
  }
}

}  // namespace tidelot::run
