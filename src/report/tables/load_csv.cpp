// SPDX-License-Identifier: Apache-2.0
// The load table as a file: a row a site and one for all of them at once.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string_view>

#include "report/tables/csv_cells.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/report/report.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot {
namespace {

using cells::number;
using Maybe = std::optional<double>;

constexpr std::string_view kHeader =
    "note,name,baseline_year,segment,load_kind,load_period,load_kg_per_year,load_lb_per_year,"
    "goal_percent,goal_kg_per_year,goal_lb_per_year,outplant,last_haul,season_days,line_m,line_ft,"
    "hauled_kg,hauled_lb,stocked_kg,stocked_lb,dry_to_fresh,nitrogen_of_dry_percent,ratios_are,"
    "net_nitrogen_kg_per_season,net_nitrogen_lb_per_season,net_nitrogen_kg_per_year,"
    "net_nitrogen_lb_per_year,net_nitrogen_kg_p10,net_nitrogen_lb_p10,net_nitrogen_kg_p90,"
    "net_nitrogen_lb_p90,kg_per_100_m,lb_per_100_ft,gear_box_ha,gear_box_acres,kg_per_ha_gear_box,"
    "lb_per_acre_gear_box,site_ha,site_acres,kg_per_ha_site,lb_per_acre_site,"
    "share_of_load_percent,share_of_goal_percent,share_of_season_load_percent,"
    "reaches_sea_anyway_percent,nitrogen_kept_from_sea_kg,nitrogen_kept_from_sea_lb,"
    "cost_per_kg,cost_per_kg_low,cost_per_kg_high,crop_goes_to,not_counted\n";

using Cells = std::vector<std::string>;

std::string maybe(Maybe value, int decimals) { return value ? number(*value, decimals) : ""; }

Maybe times(Maybe value, double factor) { return value ? Maybe(*value * factor) : std::nullopt; }

/// A mass in kg and lb.
void add_mass(Maybe kg, Cells& row) {
  row.push_back(maybe(kg, 3));
  row.push_back(maybe(times(kg, 1.0 / kPoundKg), 3));
}

void add_load(const Plan& plan, Cells& row) {
  if (!plan.load) {
    row.resize(row.size() + 9);
    return;
  }
  const LoadPlan& load = *plan.load;
  row.push_back(load.year ? fmt::format("{}", *load.year) : "");
  for (const std::string& words : {load.segment, load.kind, load.period}) {
    row.push_back(cells::text(words));
  }
  add_mass(load.nitrogen_kg_per_year, row);
  row.push_back(maybe(load.goal_percent, 3));
  add_mass(times(load.goal_percent, load.nitrogen_kg_per_year / 100.0), row);
}

void add_nitrogen(const Account& account, Cells& row) {
  row.push_back(account.dry_to_fresh > 0.0 ? number(account.dry_to_fresh, 4) : "");
  row.push_back(maybe(times(tissue_nitrogen(account), 100.0), 3));
  row.emplace_back("assumed: of the crop model");
  add_mass(account.nitrogen_kg, row);
  add_mass(account.nitrogen_kg, row);  // one season a year
  add_mass(account.nitrogen_p10_kg, row);
  add_mass(account.nitrogen_p90_kg, row);
}

void add_bases(const Account& account, Cells& row) {
  const PerBase base = per_base(account);
  row.push_back(maybe(base.kg_per_100_m, 4));
  row.push_back(maybe(times(base.kg_per_100_m, kFootM / kPoundKg), 4));
  for (const auto& [ha, kg_per_ha] : {std::pair(account.gear_ha, base.kg_per_gear_ha),
                                      std::pair(account.lease_ha, base.kg_per_lease_ha)}) {
    row.push_back(number(ha, 4));
    row.push_back(number(ha / kAcreHa, 4));
    row.push_back(maybe(kg_per_ha, 3));
    row.push_back(maybe(times(kg_per_ha, kAcreHa / kPoundKg), 3));
  }
}

void add_shares(const Account& account, const Plan& plan, Cells& row) {
  if (!plan.load) {
    row.resize(row.size() + 6);
    return;
  }
  const LoadShares shares = shares_of(account.nitrogen_kg, account.season_days, *plan.load);
  row.push_back(number(100.0 * shares.of_load, 5));
  row.push_back(maybe(times(shares.of_goal, 100.0), 5));
  row.push_back(account.season_days > 0 ? number(100.0 * shares.of_season_load, 5) : "");
  row.push_back(maybe(times(shares.to_sea, 100.0), 2));
  add_mass(shares.to_sea_kg, row);
}

void add_cost(const Account& account, const Plan& plan, Cells& row) {
  const auto cost = plan.money ? cost_of(account, *plan.money) : std::nullopt;
  row.push_back(cost ? number(cost->per_kg, 2) : "");
  row.push_back(cost ? maybe(cost->low, 2) : "");
  row.push_back(cost ? maybe(cost->high, 2) : "");
}

/// Of all sites at once the dates stand empty: each has its own.
Cells row_of(const std::string& name, const Account& account, DayOfYear outplant,
             DayOfYear last_haul, const Plan& plan) {
  Cells row{"\"estimate, not a credit\"", cells::text(name)};
  add_load(plan, row);
  row.push_back(cells::day(outplant));
  row.push_back(cells::day(last_haul));
  row.push_back(account.season_days > 0 ? fmt::format("{}", account.season_days) : "");
  row.push_back(number(account.line_m, 1));
  row.push_back(number(account.line_m / kFootM, 1));
  add_mass(1000.0 * account.hauled_t, row);
  add_mass(1000.0 * account.stocked_t, row);
  add_nitrogen(account, row);
  add_bases(account, row);
  add_shares(account, plan, row);
  add_cost(account, plan, row);
  row.emplace_back(plan.farm.food ? "food" : "not food; where it goes is not stated");
  row.emplace_back("crop lost; denitrification; animals on the gear");
  return row;
}

}  // namespace

std::string load_csv(std::span<const Site> sites, const Plan& plan,
                     const std::optional<SetSpread>& spread) {
  std::string all(kHeader);
  const auto add = [&](const Cells& row) { all += fmt::format("{}\n", fmt::join(row, ",")); };
  for (const Site& site : sites) {
    add(row_of(site.name, account_of(site), site.outplant, site.last_haul, plan));
  }
  if (!sites.empty()) {
    add(row_of("all at once", account_of_all(sites, spread), 0, 0, plan));
  }
  return all;
}

}  // namespace tidelot
