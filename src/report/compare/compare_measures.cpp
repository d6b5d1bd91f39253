// SPDX-License-Identifier: Apache-2.0
// What bays are compared on.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "tidelot/report/compare.hpp"

namespace tidelot {
namespace {

using Maybe = std::optional<double>;

/// What no stated error bears on.
Measured certain(Maybe value) { return {value, {}, {}, {}, true}; }

Maybe finite(double value) { return std::isfinite(value) ? Maybe(value) : std::nullopt; }

/// The members' values times a factor, with the quantiles that the single run tells of them.
Measured scaled(double best, const std::vector<double>& members, double factor) {
  Measured out{best * factor, {}, {}, {}, false};
  if (members.empty()) {
    return out;
  }
  std::vector<float> narrow(members.begin(), members.end());
  const Quantiles q = quantiles_of(narrow);
  out.p10 = finite(q.p10 * factor);
  out.p90 = finite(q.p90 * factor);
  for (const double value : members) {
    out.members.push_back(value * factor);
  }
  return out;
}
Measured spread(Maybe best, const std::vector<double>& members) {
  return best ? scaled(*best, members, 1.0) : Measured{};
}
/// The same of something that is certain where nobody states an error that bears on it.
Measured spread_unless(bool is_certain, Maybe best, const std::vector<double>& members) {
  return is_certain ? certain(best) : spread(best, members);
}

/// Part of the whole, member by member.
std::vector<double> ratios(const std::vector<double>& part, const std::vector<double>& whole) {
  std::vector<double> out;
  for (std::size_t m = 0; m < std::min(part.size(), whole.size()); ++m) {
    out.push_back(whole[m] > 0.0 ? part[m] / whole[m] : 0.0);
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

Measured water_ha(const Bay& bay) {
  return spread_unless(bay.water_certain, bay.water_ha, bay.members.water_ha);
}
Measured open_ha(const Bay& bay) {
  return spread_unless(bay.open_certain, bay.open_ha, bay.members.open_ha);
}
Measured open_share(const Bay& bay) {
  return bay.water_ha > 0.0 ? spread_unless(bay.open_certain, bay.open_ha / bay.water_ha,
                                            ratios(bay.members.open_ha, bay.members.water_ha))
                            : Measured{};
}
Measured suitable_ha(const Bay& bay) { return spread(bay.suitable_ha, bay.members.suitable_ha); }
Measured unknown_ha(const Bay& bay) { return certain(bay.unknown_ha); }

Measured season_days(const Bay& bay) {
  const BaySite* best = best_site(bay);
  return best == nullptr || best->account.season_days == 0
             ? Measured{}
             : scaled(best->account.season_days, bay.best_members.season_days, 1.0);
}
Measured sites(const Bay& bay) { return certain(static_cast<double>(bay.sites.size())); }
Measured lines(const Bay& bay) {
  double sum = 0.0;
  for (const BaySite& site : bay.sites) {
    sum += site.lines;
  }
  return certain(sum);
}
Measured line_m(const Bay& bay) { return certain(bay.all.line_m); }
Measured lease_ha(const Bay& bay) { return certain(bay.all.lease_ha); }

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
  if (!(alone > 0.0)) {
    return {};
  }
  std::vector<double> members;
  for (std::size_t m = 0; m < bay.members.alone_kg.size(); ++m) {
    const double of_it = bay.members.alone_kg[m];
    members.push_back(of_it > 0.0 ? 1.0 - bay.all_members.nitrogen_kg[m] / of_it : 0.0);
  }
  return spread(1.0 - bay.all.nitrogen_kg / alone, members);
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
  Measured out{of(bay.all.nitrogen_kg), {}, {}, {}, false};
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
  return bay.load ? certain(bay.load->nitrogen_kg_per_year) : Measured{};
}
Measured residence(const Bay& bay) {
  return bay.load ? certain(bay.load->residence_months) : Measured{};
}
Measured to_sea(const Bay& bay) {
  return bay.load && bay.load->residence_months ? certain(reaches_sea(*bay.load->residence_months))
                                                : Measured{};
}

Measured cost(const Bay& bay) {
  const auto best = bay.money && !bay.sites.empty() ? cost_of(bay.all, *bay.money) : std::nullopt;
  if (!best) {
    return {};
  }
  Measured out{best->per_kg, best->low, best->high, {}, false};
  for (const double kg : bay.all_members.nitrogen_kg) {
    Account member = bay.all;
    member.nitrogen_kg = kg;
    const auto one = cost_of(member, *bay.money);
    out.members.push_back(one ? one->per_kg : std::numeric_limits<double>::infinity());
  }
  return out;
}
Measured landing(const Bay& bay) {
  return spread_unless(bay.water_certain, bay.landing_km, bay.members.landing_km);
}
Measured waves(const Bay& bay) {
  return spread_unless(bay.water_certain, bay.wave_50y_m, bay.members.wave_50y_m);
}

using enum Better;
constexpr std::array<CompareMeasure, 31> kMeasures{{
    {"water_ha", "ha", neither, 1, water_ha},
    {"open_ha", "ha", more, 1, open_ha},
    {"open_share", "", more, 4, open_share},
    {"suitable_ha", "ha", more, 1, suitable_ha},
    {"unknown_ha", "ha", neither, 1, unknown_ha},
    {"season_days", "days", more, 0, season_days},
    {"sites", "", neither, 0, sites},
    {"lines", "", neither, 0, lines},
    {"line_m", "m", neither, 1, line_m},
    {"lease_ha", "ha", neither, 4, lease_ha},
    {"yield_best_site_t", "t", more, 4, best_yield},
    {"nitrogen_best_site_kg", "kg", more, 3, best_nitrogen},
    {"yield_all_sites_t", "t", more, 4, all_yield},
    {kOrderMeasure, "kg", more, 3, all_nitrogen},
    {"taken_from_each_other_share", "", less, 5, mutual_share},
    {"yield_kg_per_100_m", "kg", more, 2, yield_100_m},
    {"nitrogen_kg_per_100_m", "kg", more, 4, nitrogen_100_m},
    {"yield_t_per_ha_gear_box", "t/ha", more, 4, yield_gear},
    {"nitrogen_kg_per_ha_gear_box", "kg/ha", more, 3, nitrogen_gear},
    {"yield_t_per_ha_site", "t/ha", more, 4, yield_lease},
    {"nitrogen_kg_per_ha_site", "kg/ha", more, 3, nitrogen_lease},
    {"load_kg_per_year", "kg", neither, 0, load_kg},
    {"share_of_load", "", more, 7, of_load},
    {"share_of_goal", "", more, 7, of_goal},
    {"share_of_season_load", "", more, 7, of_season_load},
    {"residence_months", "months", neither, 3, residence},
    {"reaches_sea_anyway_share", "", neither, 4, to_sea},
    {"nitrogen_kept_from_sea_kg", "kg", more, 3, kept_from_sea},
    {"cost_per_kg", "", less, 2, cost},
    {"landing_km", "km", less, 3, landing},
    {"wave_50y_m", "m", less, 2, waves},
}};

std::vector<double> sums(const std::vector<double>& a, const std::vector<double>& b) {
  std::vector<double> out;
  for (std::size_t m = 0; m < std::min(a.size(), b.size()); ++m) {
    out.push_back(a[m] + b[m]);
  }
  return out;
}

}  // namespace

CropYield crop_yield_of(const Bay& bay) {
  CropYield out;
  out.crop = bay.crop;
  out.sites = bay.sites.size();
  out.line_m = bay.all.line_m;
  out.nitrogen_kg = bay.all.nitrogen_kg;
  for (const BaySite& site : bay.sites) {
    out.yield_t += site.together_t;
  }
  if (!bay.sites.empty()) {
    out.outplant = bay.sites[0].outplant;
    out.last_haul = bay.sites[0].last_haul;
  }
  out.members = bay.all_members;
  return out;
}

std::vector<int> months_of(const CropYield& crop) {
  std::vector<int> out;
  if (crop.outplant <= 0) {
    return out;
  }
  const bool over_new_year = crop.last_haul < crop.outplant;
  const std::uint16_t in_water =
      months_between(crop.outplant, crop.last_haul + (over_new_year ? kDaysPerYear : 0));
  const int first = month_of(crop.outplant);
  for (int i = 0; i < kMonths; ++i) {
    const int month = (first + i) % kMonths;
    if (((in_water >> unsigned(month)) & 1U) != 0) {
      out.push_back(month + 1);
    }
  }
  return out;
}

Measured yield_of(const CropYield& crop) {
  return crop.sites > 0 ? scaled(crop.yield_t, crop.members.yield_t, 1.0) : Measured{};
}
Measured nitrogen_of(const CropYield& crop) {
  return crop.sites > 0 ? scaled(crop.nitrogen_kg, crop.members.nitrogen_kg, 1.0) : Measured{};
}
Measured yield_in_turn(const CropsInTurn& turn) {
  return turn.cannot.empty()
             ? scaled(turn.first.yield_t + turn.second.yield_t,
                      sums(turn.first.members.yield_t, turn.second.members.yield_t), 1.0)
             : Measured{};
}
Measured nitrogen_in_turn(const CropsInTurn& turn) {
  return turn.cannot.empty()
             ? scaled(turn.first.nitrogen_kg + turn.second.nitrogen_kg,
                      sums(turn.first.members.nitrogen_kg, turn.second.members.nitrogen_kg), 1.0)
             : Measured{};
}

std::span<const CompareMeasure> compare_measures() { return kMeasures; }

}  // namespace tidelot
