// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_limits.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "run/sites/site_centre.hpp"

namespace tidelot::run {
namespace {

constexpr int kMostDaysOff = 7;  // a week; judgement

std::optional<SiteSeason> season_at(const Site& site, const Plan& plan, const SeasonSetup& setup,
                                    LayerSet& layers) {
  const auto here = centre_layers(site, layers);
  if (!here) {
    return std::nullopt;
  }
  const CellSeason cell = cell_season(*here, site.centre.lat, setup);
  SiteSeason season = site_season_of(cell, plan, setup.limits());
  season.dry_to_fresh =
      haul_dry_to_fresh(cell.growth, stocked(setup.husbandry(), setup.constants()));
  return season;
}

double mean_current(const std::vector<DayTrace>& days) {
  const double sum = std::accumulate(
      days.begin(), days.end(), 0.0,
      [](double total, const DayTrace& day) { return total + day.forcing.current; });
  return days.empty() ? 0.0 : sum / static_cast<double>(days.size());
}

/// Days from one date to another the shorter way round the year.
int days_apart(int a, int b) {
  const int apart = std::abs(a - b) % kDaysPerYear;
  return std::min(apart, kDaysPerYear - apart);
}

/// "S01 (05-23), S02 (05-25)": the places where the water says otherwise.
std::vector<std::string> places_off(DayOfYear given, std::span<const WaterSeason> places,
                                    int SeasonWindow::*date) {
  std::vector<std::string> off;
  for (const WaterSeason& place : places) {
    if (place.window.state != SeasonState::grows) {
      off.push_back(place.place + " (no season)");
    } else if (days_apart(given, place.window.*date) > kMostDaysOff) {
      off.push_back(fmt::format("{} ({})", place.place, format_month_day(place.window.*date)));
    }
  }
  return off;
}

void warn_of(std::string_view key, std::optional<DayOfYear> given,
             std::span<const WaterSeason> places, int SeasonWindow::*date,
             std::vector<std::string>& out) {
  if (!given) {
    return;
  }
  const std::vector<std::string> off = places_off(*given, places, date);
  if (!off.empty()) {
    out.push_back(fmt::format("farm.{}: {} is used as given, but the water says otherwise at {}",
                              key, format_month_day(*given), fmt::join(off, ", ")));
  }
}

}  // namespace

double haul_dry_to_fresh(const SeasonResult& growth, const Stocked& put_out) {
  double hauled = 0.0;
  double dry_nitrogen = 0.0;  // g FW times g N/g DW
  for (const DayTrace& day : growth.days) {
    hauled += day.harvest_g_per_m;
    dry_nitrogen += day.harvest_g_per_m * day.tissue_n;
  }
  const double fresh = growth.yield_g_per_m + put_out.fresh_g_per_m;
  const double nitrogen = growth.nitrogen_g_per_m + put_out.nitrogen_g_per_m;
  return fresh > 0.0 && dry_nitrogen > 0.0 ? (nitrogen / fresh) / (dry_nitrogen / hauled) : 0.0;
}

SiteSeason site_season_of(const CellSeason& cell, const Plan& plan, const LimitThresholds& limits) {
  SiteSeason season;
  season.window = cell.window;
  season.water = cell.water;
  season.months = season_months(cell.growth.days, cell.window.outplant, husbandry_of(plan), limits);
  season.beyond = days_beyond(cell.growth.days, limits);
  season.current_m_s = mean_current(cell.growth.days);
  for (std::size_t i = 0; i < cell.growth.days.size(); ++i) {
    const DayTrace& day = cell.growth.days[i];
    season.biomass_g_per_m.push_back(day.biomass_g_per_m);
    season.tissue_n.push_back(day.tissue_n);
    if (day.harvest_g_per_m > 0.0) {
      season.harvests.push_back({static_cast<int>(i), day.harvest_g_per_m});
    }
  }
  return season;
}

void add_site_seasons(SitesResult& sites, const Plan& plan, const Area& area) {
  const SeasonSetup setup(plan);
  const std::unique_ptr<LayerSet> layers = area.layers->clone();
  const Stocked put_out = stocked(setup.husbandry(), setup.constants());
  for (std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (Site& site : *list) {
      site.stocked_t = site.layout.line_m * put_out.fresh_g_per_m / 1e6;
      site.stocked_nitrogen_kg = site.layout.line_m * put_out.nitrogen_g_per_m / 1e3;
      site.season = season_at(site, plan, setup, *layers);
    }
  }
}

std::vector<std::string> date_warnings(const FarmPlan& farm, std::span<const WaterSeason> places) {
  std::vector<std::string> out;
  warn_of("outplant", farm.outplant, places, &SeasonWindow::outplant, out);
  warn_of("last_haul", farm.last_haul, places, &SeasonWindow::last_haul, out);
  return out;
}

std::vector<WaterSeason> water_seasons(std::span<const Site> sites) {
  std::vector<WaterSeason> out;
  for (const Site& site : sites) {
    if (site.season) {
      out.push_back({site.name, site.season->water});
    }
  }
  return out;
}

}  // namespace tidelot::run
