// SPDX-License-Identifier: Apache-2.0
// What bays are compared on.
#include <algorithm>
#include <array>
#include <limits>

#include "tidelot/report/compare.hpp"

namespace tidelot {
namespace {

using Maybe = std::optional<double>;

Measured known(Maybe value) { return {value, {}, {}, {}}; }

/// The members' values times a factor, with the quantiles that the single run tells of them.
Measured scaled(double best, const std::vector<double>& members, double factor) {
  Measured out{best * factor, {}, {}, {}};
  if (members.empty()) {
    return out;
  }
  std::vector<float> narrow(members.begin(), members.end());
  const Quantiles q = quantiles_of(narrow);
  out.p10 = q.p10 * factor;
  out.p90 = q.p90 * factor;
  for (const double value : members) {
    out.members.push_back(value * factor);
  }
  return out;
}

Measured per(double best, const std::vector<double>& members, double times, double base) {
  return base > 0.0 ? scaled(best, members, times / base) : Measured{};
}

const BaySite* best_site(const Bay& bay) { return bay.sites.empty() ? nullptr : &bay.sites[0]; }

double yield_of_all(const Bay& bay) {
  double sum = 0.0;
  for (const BaySite& site : bay.sites) {
    sum += site.together_t;
  }
  return sum;
}

Measured yield_per(const Bay& bay, double times, double base) {
  return per(yield_of_all(bay), bay.all_members.yield_t, times, base);
}
Measured nitrogen_per(const Bay& bay, double times, double base) {
  return per(bay.all.nitrogen_kg, bay.all_members.nitrogen_kg, times, base);
}

Measured water_ha(const Bay& bay) { return known(bay.water_ha); }
Measured open_ha(const Bay& bay) { return known(bay.open_ha); }
Measured open_share(const Bay& bay) {
  return bay.water_ha > 0.0 ? known(bay.open_ha / bay.water_ha) : Measured{};
}
Measured unknown_ha(const Bay& bay) { return known(bay.unknown_ha); }

Measured season_days(const Bay& bay) {
  const BaySite* best = best_site(bay);
  return best == nullptr || best->account.season_days == 0
             ? Measured{}
             : scaled(best->account.season_days, bay.best_members.season_days, 1.0);
}
Measured sites(const Bay& bay) { return known(static_cast<double>(bay.sites.size())); }
Measured lines(const Bay& bay) {
  double sum = 0.0;
  for (const BaySite& site : bay.sites) {
    sum += site.lines;
  }
  return known(sum);
}
Measured line_m(const Bay& bay) { return known(bay.all.line_m); }
Measured lease_ha(const Bay& bay) { return known(bay.all.lease_ha); }

Measured best_yield(const Bay& bay) {
  const BaySite* best = best_site(bay);
  return best == nullptr ? Measured{} : scaled(best->yield_t, bay.best_members.yield_t, 1.0);
}
Measured best_nitrogen(const Bay& bay) {
  const BaySite* best = best_site(bay);
  return best == nullptr ? Measured{}
                         : scaled(best->account.nitrogen_kg, bay.best_members.nitrogen_kg, 1.0);
}
Measured all_yield(const Bay& bay) { return yield_per(bay, 1.0, bay.sites.empty() ? 0.0 : 1.0); }
Measured all_nitrogen(const Bay& bay) {
  return nitrogen_per(bay, 1.0, bay.sites.empty() ? 0.0 : 1.0);
}
/// What the sites take from each other.
Measured mutual_share(const Bay& bay) {
  double alone = 0.0;
  for (const BaySite& site : bay.sites) {
    alone += site.account.nitrogen_kg;
  }
  return alone > 0.0 ? known(1.0 - bay.all.nitrogen_kg / alone) : Measured{};
}

Measured yield_100_m(const Bay& bay) { return yield_per(bay, 100'000.0, bay.all.line_m); }
Measured nitrogen_100_m(const Bay& bay) { return nitrogen_per(bay, 100.0, bay.all.line_m); }
Measured yield_gear(const Bay& bay) { return yield_per(bay, 1.0, bay.all.gear_ha); }
Measured nitrogen_gear(const Bay& bay) { return nitrogen_per(bay, 1.0, bay.all.gear_ha); }
Measured yield_lease(const Bay& bay) { return yield_per(bay, 1.0, bay.all.lease_ha); }
Measured nitrogen_lease(const Bay& bay) { return nitrogen_per(bay, 1.0, bay.all.lease_ha); }

/// A share that grows with the nitrogen, by the accounting's own arithmetic.
Measured load_share(const Bay& bay, Maybe (*pick)(const LoadShares&)) {
  if (!bay.load || bay.sites.empty()) {
    return {};
  }
  const auto of = [&](double kg) { return pick(shares_of(kg, bay.all.season_days, *bay.load)); };
  Measured out = known(of(bay.all.nitrogen_kg));
  if (out.best && bay.all.nitrogen_p10_kg && bay.all.nitrogen_p90_kg) {
    out.p10 = of(*bay.all.nitrogen_p10_kg);
    out.p90 = of(*bay.all.nitrogen_p90_kg);
    for (const double kg : bay.all_members.nitrogen_kg) {
      out.members.push_back(of(kg).value_or(0.0));
    }
  }
  return out;
}
Measured of_load(const Bay& bay) {
  return load_share(bay, [](const LoadShares& s) { return Maybe(s.of_load); });
}
Measured of_goal(const Bay& bay) {
  return load_share(bay, [](const LoadShares& s) { return s.of_goal; });
}
Measured of_season_load(const Bay& bay) {
  return load_share(bay, [](const LoadShares& s) {
    return s.of_season_load > 0.0 ? Maybe(s.of_season_load) : Maybe();
  });
}
Measured kept_from_sea(const Bay& bay) {
  return load_share(bay, [](const LoadShares& s) { return s.to_sea_kg; });
}
Measured load_kg(const Bay& bay) {
  return bay.load ? known(bay.load->nitrogen_kg_per_year) : Measured{};
}
Measured residence(const Bay& bay) {
  return bay.load ? known(bay.load->residence_months) : Measured{};
}
Measured to_sea(const Bay& bay) {
  return bay.load && bay.load->residence_months ? known(reaches_sea(*bay.load->residence_months))
                                                : Measured{};
}

Measured cost(const Bay& bay) {
  const auto best = bay.money && !bay.sites.empty() ? cost_of(bay.all, *bay.money) : std::nullopt;
  if (!best) {
    return {};
  }
  Measured out{best->per_kg, best->low, best->high, {}};
  for (const double kg : bay.all_members.nitrogen_kg) {
    Account member = bay.all;
    member.nitrogen_kg = kg;
    const auto one = cost_of(member, *bay.money);
    out.members.push_back(one ? one->per_kg : std::numeric_limits<double>::infinity());
  }
  return out;
}
Measured landing(const Bay& bay) { return known(bay.landing_km); }
Measured waves(const Bay& bay) { return known(bay.wave_50y_m); }

using enum Better;
constexpr std::array<CompareMeasure, 30> kMeasures{{
    {"water_ha", "ha", neither, 1, water_ha, false},
    {"open_ha", "ha", more, 1, open_ha, false},
    {"open_share", "", more, 4, open_share, false},
    {"unknown_ha", "ha", neither, 1, unknown_ha, false},
    {"season_days", "days", more, 0, season_days, true},
    {"sites", "", neither, 0, sites, false},
    {"lines", "", neither, 0, lines, false},
    {"line_m", "m", neither, 1, line_m, false},
    {"lease_ha", "ha", neither, 4, lease_ha, false},
    {"yield_best_site_t", "t", more, 4, best_yield, true},
    {"nitrogen_best_site_kg", "kg", more, 3, best_nitrogen, true},
    {"yield_all_sites_t", "t", more, 4, all_yield, true},
    {kOrderMeasure, "kg", more, 3, all_nitrogen, true},
    {"taken_from_each_other_share", "", less, 5, mutual_share, false},
    {"yield_kg_per_100_m", "kg", more, 2, yield_100_m, true},
    {"nitrogen_kg_per_100_m", "kg", more, 4, nitrogen_100_m, true},
    {"yield_t_per_ha_gear_box", "t/ha", more, 4, yield_gear, true},
    {"nitrogen_kg_per_ha_gear_box", "kg/ha", more, 3, nitrogen_gear, true},
    {"yield_t_per_ha_site", "t/ha", more, 4, yield_lease, true},
    {"nitrogen_kg_per_ha_site", "kg/ha", more, 3, nitrogen_lease, true},
    {"load_kg_per_year", "kg", neither, 0, load_kg, false},
    {"share_of_load", "", more, 7, of_load, true},
    {"share_of_goal", "", more, 7, of_goal, true},
    {"share_of_season_load", "", more, 7, of_season_load, true},
    {"residence_months", "months", neither, 3, residence, false},
    {"reaches_sea_anyway_share", "", neither, 4, to_sea, false},
    {"nitrogen_kept_from_sea_kg", "kg", more, 3, kept_from_sea, true},
    {"cost_per_kg", "", less, 2, cost, true},
    {"landing_km", "km", less, 3, landing, false},
    {"wave_50y_m", "m", less, 2, waves, false},
}};

}  // namespace

std::span<const CompareMeasure> compare_measures() { return kMeasures; }

}  // namespace tidelot
