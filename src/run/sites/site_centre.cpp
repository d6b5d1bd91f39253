// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_centre.hpp"

#include <cmath>
#include <numeric>

namespace tidelot::run {

std::optional<TileLayers> layers_at_centre(const Site& site, LayerSet& layers) {
  const Cell cell = layers.grid().cell_of(site.centre_xy);
  if (!layers.grid().holds(cell)) {
    return std::nullopt;
  }
  return layers.sample(Tile{cell.col, cell.row, 1, 1});
}

std::optional<TileLayers> centre_layers(const Site& site, LayerSet& layers) {
  std::optional<TileLayers> here = layers_at_centre(site, layers);
  return here && unknown_properties(*here, 1)[0] == 0 ? std::move(here) : std::nullopt;
}

SiteWater::Year monthly_means(const MonthlyTile& cell) {
  SiteWater::Year year{};
  for (int month = 0; month < kMonths; ++month) {
    const auto m = static_cast<std::size_t>(month);
    if (cell.empty()) {
      year[m] = std::nan("");
    } else if (cell.day.empty()) {
      year[m] = cell.month[cell.steady ? 0 : m][0];
    } else {
      const auto first = cell.day.begin() + first_day_of_month(month) - 1;
      const int days = kMonthDays[m];
      year[m] = std::accumulate(first, first + days, 0.0,
                                [](double sum, const auto& day) { return sum + day[0]; }) /
                days;
    }
  }
  return year;
}

void add_site_water(SitesResult& sites, const Area& area) {
  const std::unique_ptr<LayerSet> layers = area.layers->clone();
  for (std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (Site& site : *list) {
      if (const auto here = layers_at_centre(site, *layers)) {
        site.water = {monthly_means(here->temperature), monthly_means(here->salinity),
                      monthly_means(here->attenuation), monthly_means(here->nitrogen),
                      monthly_means(here->current)};
      }
    }
  }
}

}  // namespace tidelot::run
