// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// What one season takes out of the water, at one site or at several together, and on what. A crop
/// has one season a year, so this is a year's, too. Equations: docs/science/accounting.md.
struct Account {
  std::size_t sites = 1;
  double line_m = 0.0;       ///< longline
  double hauled_t = 0.0;     ///< fresh, all hauls: net yield and what was stocked
  double stocked_t = 0.0;    ///< fresh
  double dry_to_fresh = 0;   ///< of what is hauled; 0: not known
  double nitrogen_kg = 0.0;  ///< net of the stocking
  double stocked_nitrogen_kg = 0.0;
  std::optional<double> nitrogen_p10_kg, nitrogen_p90_kg;  ///< empty: no spread was computed
  double gear_ha = 0.0;                                    ///< Gear::box_area_ha
  double lease_ha = 0.0;                                   ///< of the corners as printed
  int season_days = 0;                                     ///< of several: the longest season
};

/// One site by itself, with its own draw-down where that is computed.
[[nodiscard]] Account account_of(const Site& site);

/// All ranked sites farmed at once, each in the others' water where that is computed. Their spread
/// is not the sum of spreads: it is that of the set.
[[nodiscard]] Account account_of_all(std::span<const Site> ranked,
                                     const std::optional<SetSpread>& spread = std::nullopt);

/// Net nitrogen on the bases of the trade; empty where the base is 0.
struct PerBase {
  std::optional<double> kg_per_100_m, kg_per_gear_ha, kg_per_lease_ha;
};
[[nodiscard]] PerBase per_base(const Account& account);

/// Nitrogen in the dry weight that is hauled, g N/g DW: gross, with what was stocked; empty where
/// nothing is hauled or the dry weight is not known.
[[nodiscard]] std::optional<double> tissue_nitrogen(const Account& account);

/// Part of a load of nitrogen that reaches the sea without any crop, 1/(1 + 0.30 T), T the
/// residence time of the water in months (rate: Dettmann 2001, doi 10.2307/1353250; Nielsen et al.
/// 1995, doi 10.3354/meps119275; this form from memory). The rest is lost in the bay by itself.
[[nodiscard]] double reaches_sea(double residence_months);

/// A season's net nitrogen against the bay's load.
struct LoadShares {
  double of_load = 0.0;
  std::optional<double> of_goal;    ///< of what is to be taken out
  double of_season_load = 0.0;      ///< of the load of as many days as the season has
  std::optional<double> to_sea;     ///< reaches_sea of the bay's residence time
  std::optional<double> to_sea_kg;  ///< of the net nitrogen: what would have reached the sea
};
[[nodiscard]] LoadShares shares_of(double nitrogen_kg, int season_days, const LoadPlan& load);

/// Cost of a kilogram of net nitrogen in the plan's currency.
struct NitrogenCost {
  double per_kg = 0.0;
  std::optional<double> low, high;  ///< by P90 and P10 of the nitrogen
};
/// (per_line_m x metres + per_year x sites) / net nitrogen a year; none where that is not above 0.
[[nodiscard]] std::optional<NitrogenCost> cost_of(const Account& account, const MoneyPlan& money);

/// One harvest of the calendar.
struct CalendarHaul {
  DayOfYear day = 0;
  double fresh_t = 0.0;
};
/// The harvests of the season at the site's centre, with their weights changed alike so that they
/// add up to what the whole site gives and what was stocked. Empty where no season is known at the
/// centre, or nothing is hauled.
[[nodiscard]] std::vector<CalendarHaul> harvest_calendar(const Site& site);

}  // namespace tidelot
