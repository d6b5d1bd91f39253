// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/accounting.hpp"

#include <algorithm>
#include <numeric>

namespace tidelot {
namespace {

constexpr double kSquareMetresPerHectare = 10'000.0;
constexpr double kLossPerMonth = 0.30;  // Dettmann 2001; Nielsen et al. 1995
constexpr double kKgPerT = 1000.0;

std::optional<double> ratio(double part, double whole) {
  return whole > 0.0 ? std::optional(part / whole) : std::nullopt;
}

}  // namespace

Account account_of(const Site& site) {
  Account out;
  out.line_m = site.layout.line_m;
  out.stocked_t = site.stocked_t;
  out.hauled_t = site.yield_t + site.stocked_t;
  out.nitrogen_kg = site.nitrogen_kg;
  out.stocked_nitrogen_kg = site.stocked_nitrogen_kg;
  out.gear_ha = site.gear.box_area_ha;
  out.lease_ha = site.area_ha;
  if (site.spread) {
    out.nitrogen_p10_kg = site.spread->nitrogen_kg.p10;
    out.nitrogen_p90_kg = site.spread->nitrogen_kg.p90;
  }
  if (site.season) {
    out.dry_to_fresh = site.season->dry_to_fresh;
    out.season_days = site.season->window.days();
  }
  return out;
}

Account account_of_all(std::span<const Site> ranked, const std::optional<SetSpread>& spread) {
  Account all;
  if (spread) {
    all.nitrogen_p10_kg = spread->nitrogen_kg.p10;
    all.nitrogen_p90_kg = spread->nitrogen_kg.p90;
  }
  all.sites = 0;
  double dry_t = 0.0;
  bool dry_known = true;
  for (const Site& site : ranked) {
    Account one = account_of(site);
    if (site.with_neighbours) {
      one.hauled_t = site.with_neighbours->yield_t + site.stocked_t;
      one.nitrogen_kg = site.with_neighbours->nitrogen_kg;
    }
    ++all.sites;
    all.line_m += one.line_m;
    all.hauled_t += one.hauled_t;
    all.stocked_t += one.stocked_t;
    all.nitrogen_kg += one.nitrogen_kg;
    all.stocked_nitrogen_kg += one.stocked_nitrogen_kg;
    all.gear_ha += one.gear_ha;
    all.lease_ha += one.lease_ha;
    all.season_days = std::max(all.season_days, one.season_days);
    dry_t += one.hauled_t * one.dry_to_fresh;
    dry_known = dry_known && one.dry_to_fresh > 0.0;
  }
  all.dry_to_fresh = dry_known ? ratio(dry_t, all.hauled_t).value_or(0.0) : 0.0;
  return all;
}

PerBase per_base(const Account& account) {
  return {ratio(100.0 * account.nitrogen_kg, account.line_m),
          ratio(account.nitrogen_kg, account.gear_ha),
          ratio(account.nitrogen_kg, account.lease_ha)};
}

std::optional<double> tissue_nitrogen(const Account& account) {
  return ratio(account.nitrogen_kg + account.stocked_nitrogen_kg,
               kKgPerT * account.hauled_t * account.dry_to_fresh);
}

double reaches_sea(double residence_months) {
  return 1.0 / (1.0 + kLossPerMonth * residence_months);
}

LoadShares shares_of(double nitrogen_kg, int season_days, const LoadPlan& load) {
  LoadShares out;
  out.of_load = nitrogen_kg / load.nitrogen_kg_per_year;
  if (load.goal_percent) {
    out.of_goal = out.of_load / (*load.goal_percent / 100.0);
  }
  out.of_season_load = season_days > 0 ? out.of_load * kDaysPerYear / season_days : 0.0;
  if (load.residence_months) {
    out.to_sea = reaches_sea(*load.residence_months);
    out.to_sea_kg = nitrogen_kg * *out.to_sea;
  }
  return out;
}

std::optional<NitrogenCost> cost_of(const Account& account, const MoneyPlan& money) {
  const double a_year =
      money.per_line_m * account.line_m + money.per_year * static_cast<double>(account.sites);
  const std::optional<double> best = ratio(a_year, account.nitrogen_kg);
  if (!best) {
    return std::nullopt;
  }
  NitrogenCost out{*best, {}, {}};
  if (account.nitrogen_p10_kg && account.nitrogen_p90_kg) {
    out.low = ratio(a_year, *account.nitrogen_p90_kg);
    out.high = ratio(a_year, *account.nitrogen_p10_kg);
  }
  return out;
}

std::vector<CalendarHaul> harvest_calendar(const Site& site) {
  std::vector<CalendarHaul> calendar;
  if (!site.season) {
    return calendar;
  }
  const auto& hauls = site.season->harvests;
  const double all_g =
      std::accumulate(hauls.begin(), hauls.end(), 0.0,
                      [](double sum, const SiteSeason::Harvest& h) { return sum + h.g_per_m; });
  const double whole_t = site.yield_t + site.stocked_t;
  if (!(all_g > 0.0) || !(whole_t > 0.0)) {
    return calendar;
  }
  for (const SiteSeason::Harvest& haul : hauls) {
    calendar.push_back(
        {wrapped_day(site.season->window.outplant + haul.day), whole_t * haul.g_per_m / all_g});
  }
  return calendar;
}

}  // namespace tidelot
