// SPDX-License-Identifier: Apache-2.0
// How sure the order of the bays is.
#include <algorithm>
#include <array>
#include <functional>
#include <numeric>

#include "tidelot/core/first_order.hpp"
#include "tidelot/report/compare.hpp"
#include "tidelot/sites/spread.hpp"

namespace tidelot {
namespace {

/// Values of one measure, bay by bay, turned so that more is better.
using Members = std::vector<std::vector<double>>;

Members members_of(const std::vector<Measured>& values, Better better) {
  Members out;
  for (const Measured& one : values) {
    out.push_back(one.members);
    if (better == Better::less) {
      for (double& value : out.back()) {
        value = -value;
      }
    }
  }
  return out;
}

/// As many in every bay, and some.
bool comparable(const Members& members) {
  return !members.empty() && !members[0].empty() &&
         std::ranges::all_of(members,
                             [&](const auto& one) { return one.size() == members[0].size(); });
}

std::vector<std::size_t> order_of(const std::vector<Measured>& values, Better better) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    const auto &x = values[a].best, &y = values[b].best;
    if (!x || !y) {
      return x.has_value() && !y.has_value();
    }
    return better == Better::more ? *x > *y : *x < *y;
  });
  return order;
}

std::vector<PairChance> pairs_of(const Members& members) {
  std::vector<PairChance> out;
  for (std::size_t a = 0; a < members.size(); ++a) {
    for (std::size_t b = a + 1; b < members.size(); ++b) {
      const double chance = chance_above(members[a], members[b]);
      out.push_back({a, b, chance, !told_above(chance) && !told_above(1.0 - chance)});
    }
  }
  return out;
}

/// Of equal ones each takes the higher place.
std::vector<std::vector<double>> places_of(const Members& members) {
  const std::size_t bays = members.size(), draws = members[0].size();
  std::vector<std::vector<double>> out(bays, std::vector<double>(bays, 0.0));
  for (std::size_t m = 0; m < draws; ++m) {
    for (std::size_t bay = 0; bay < bays; ++bay) {
      const auto above = std::ranges::count_if(
          members, [&](const auto& other) { return other[m] > members[bay][m]; });
      out[bay][static_cast<std::size_t>(above)] += 1.0 / static_cast<double>(draws);
    }
  }
  return out;
}

std::vector<Measured> measured(const Comparison& all, const CompareMeasure& measure) {
  std::vector<Measured> out;
  for (const ComparedBay& one : all.bays) {
    out.push_back(measure.of(one.bay));
  }
  return out;
}

MeasureOrder order_by_values(const Comparison& all, std::size_t measure,
                             const std::vector<Measured>& values, Better better) {
  MeasureOrder order{measure, order_of(values, better), {}, {}};
  const Members members = members_of(values, better);
  if (paired(all) && comparable(members)) {
    order.pairs = pairs_of(members);
    order.places = places_of(members);
  }
  return order;
}

}  // namespace

bool paired(const Comparison& all) {
  return all.bays.size() > 1 && std::ranges::all_of(all.bays, [&](const ComparedBay& one) {
           return one.bay.draws > 0 && one.bay.draws == all.bays[0].bay.draws &&
                  one.bay.seed == all.bays[0].bay.seed;
         });
}

std::vector<MeasureOrder> orders_of(const Comparison& all) {
  std::vector<MeasureOrder> out;
  const auto measures = compare_measures();
  for (std::size_t i = 0; i < measures.size(); ++i) {
    if (measures[i].better == Better::neither) {
      continue;
    }
    out.push_back(order_by_values(all, i, measured(all, measures[i]), measures[i].better));
  }
  return out;
}

MeasureOrder order_in_turn(const Comparison& all) {
  std::vector<Measured> values;
  for (const ComparedBay& one : all.bays) {
    values.push_back(one.crops ? nitrogen_in_turn(one.crops->turn) : Measured{});
  }
  return order_by_values(all, 0, values, Better::more);
}

bool ties_with_next(const MeasureOrder& order, std::size_t place) {
  if (place + 1 >= order.order.size()) {
    return false;
  }
  const auto [a, b] = std::minmax(order.order[place], order.order[place + 1]);
  return std::ranges::any_of(order.pairs, [a = a, b = b](const PairChance& pair) {
    return pair.a == a && pair.b == b && pair.tie;
  });
}

std::vector<ToMeasure> to_measure(const Comparison& all, const MeasureOrder& order) {
  std::vector<ToMeasure> out;
  if (order.pairs.empty()) {
    return out;
  }
  const std::array two{order.order[0], order.order[1]};
  const CompareMeasure& measure = compare_measures()[order.measure];
  std::vector<double> difference = measure.of(all.bays[two[0]].bay).members;
  const std::vector<double> second = measure.of(all.bays[two[1]].bay).members;
  for (std::size_t m = 0; m < difference.size(); ++m) {
    difference[m] -= second[m];
  }
  const double by_chance = chance_share(difference.size());
  for (const std::size_t bay : two) {
    for (const LayerErrors& layer : all.bays[bay].bay.errors) {
      const double share = first_order_share(layer.z, difference);
      if (share > by_chance) {
        out.push_back({bay, layer.input, layer.basis, layer.judged, share});
      }
    }
  }
  std::ranges::stable_sort(out, std::ranges::greater{}, &ToMeasure::share);
  return out;
}

TargetFinding target_finding(const Bay& bay, double target_kg, bool all_found) {
  TargetFinding out;
  out.most_kg = bay.all.nitrogen_kg;
  out.sites_found = bay.sites.size();
  out.all_found = all_found;
  const double low = bay.all.nitrogen_p10_kg && bay.all.nitrogen_kg > 0.0
                         ? std::max(0.0, *bay.all.nitrogen_p10_kg / bay.all.nitrogen_kg)
                         : 0.0;
  TargetNeed sum;
  for (const BaySite& site : bay.sites) {
    ++sum.sites;
    sum.line_m += site.account.line_m;
    sum.lease_ha += site.account.lease_ha;
    sum.nitrogen_kg += site.together_kg;
    if (!out.best && sum.nitrogen_kg >= target_kg) {
      out.best = sum;
    }
    if (!out.nine_in_ten && low > 0.0 && low * sum.nitrogen_kg >= target_kg) {
      out.nine_in_ten = sum;
    }
  }
  return out;
}

}  // namespace tidelot
