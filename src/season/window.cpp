// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/window.hpp"

#include <algorithm>
#include <array>

#include "season/ten_day_series.hpp"
#include "season/ten_days.hpp"

namespace tidelot {
namespace {

constexpr int kRestOfYear = kDaysPerYear - 1;

/// The first day at or after `from` that has the date of `day`.
int on_or_after(int from, int day) {
  return from + ((day - from) % kDaysPerYear + kDaysPerYear) % kDaysPerYear;
}

SeasonWindow window_of(int outplant, int last_haul) {
  const int start = on_or_after(1, outplant);
  return {SeasonState::grows, start, start + last_haul - outplant};
}

SeasonWindow none(SeasonState state) { return {state, 0, 0}; }

template <typename Water>
bool always_too_hot(const Water& water, const SeasonWindow& window, double t_max) {
  for (int day = window.outplant; day <= window.last_haul; ++day) {
    if (water.mean(day) < t_max) {
      return false;
    }
  }
  return true;
}

/// The season around the warmest day of `water`; too cold where that day does not reach `outplant`.
/// begin is where a year that is warm throughout begins.
template <typename Water>
SeasonWindow around_peak(const Water& water, double outplant_at, double last_haul_at,
                         DayOfYear begin) {
  const DayOfYear peak = water.warm_day(std::max(outplant_at, last_haul_at));
  if (!(water.mean(peak) >= outplant_at)) {
    return none(SeasonState::too_cold);
  }
  const int back = water.warm_run(peak, -1, outplant_at);
  const int ahead = water.warm_run(peak, 1, last_haul_at);
  const int outplant = back < kRestOfYear ? peak - back : begin;
  const int last_haul =
      ahead < kRestOfYear ? on_or_after(outplant, peak + ahead) : outplant + kRestOfYear;
  return window_of(outplant, last_haul);
}

using Months = std::span<const float, kMonths>;
using Days = std::span<const float, kDaysPerYear>;

template <std::size_t N>
std::array<float, N> turned(std::span<const float, N> nodes) {
  std::array<float, N> out{};
  std::transform(nodes.begin(), nodes.end(), out.begin(), [](float t) { return -t; });
  return out;
}

/// A cold crop's season is a warm one's with every temperature's sign turned.
template <typename Water>
SeasonWindow around_trough(const Water& turned, const WindowRules& rules, DayOfYear begin) {
  const SeasonWindow window =
      around_peak(turned, -rules.outplant_temperature, -rules.last_haul_temperature, begin);
  return window.state == SeasonState::too_cold ? none(SeasonState::too_hot) : window;
}

/// Water: what gives the trailing ten-day means of the nodes.
template <typename Water, typename Nodes>
SeasonWindow found_in(const Nodes& nodes, const WindowRules& rules, DayOfYear begin) {
  const Water water(nodes);
  const SeasonWindow window =
      rules.rule == SeasonRule::cold
          ? around_trough(Water(turned(nodes)), rules, begin)
          : around_peak(water, rules.outplant_temperature, rules.last_haul_temperature, begin);
  const bool hot = window.state == SeasonState::grows && always_too_hot(water, window, rules.t_max);
  return hot ? none(SeasonState::too_hot) : window;
}

/// The water's own season; begin is where a year that is warm or cold throughout begins.
SeasonWindow found_window(std::span<const float> nodes, const WindowRules& rules, DayOfYear begin) {
  return nodes.size() == kDaysPerYear ? found_in<TenDaySeries>(Days(nodes), rules, begin)
                                      : found_in<TenDayMeans>(Months(nodes), rules, begin);
}

SeasonWindow with_given_dates(SeasonWindow window, const WindowRules& rules) {
  const int outplant = rules.outplant.value_or(window.outplant);
  return window_of(outplant, on_or_after(outplant, rules.last_haul.value_or(window.last_haul)));
}

SeasonWindow clipped(const SeasonWindow& season, const WindowRules& rules) {
  if (rules.gear_in && rules.gear_out) {
    return part_within(season, *rules.gear_in, *rules.gear_out);
  }
  int outplant = season.outplant;
  int last_haul = season.last_haul;
  if (rules.gear_in && on_or_after(outplant, *rules.gear_in) <= last_haul) {
    outplant = on_or_after(outplant, *rules.gear_in);
  }
  if (rules.gear_out && on_or_after(outplant, *rules.gear_out) <= last_haul) {
    last_haul = on_or_after(outplant, *rules.gear_out);
  }
  return window_of(outplant, last_haul);
}

}  // namespace

WindowRules window_rules(const Plan& plan) {
  return {plan.crop.at("outplant_temperature"),
          plan.crop.at("last_haul_temperature"),
          growth_range(plan.crop).t_max,
          plan.farm.outplant,
          plan.farm.last_haul,
          plan.season.gear_in,
          plan.season.gear_out,
          plan.crop.season_rule};
}

SeasonWindow part_within(const SeasonWindow& season, DayOfYear from, DayOfYear to) {
  SeasonWindow best = none(SeasonState::outside_gear);
  for (const int year : {-kDaysPerYear, 0, kDaysPerYear}) {
    const int first = std::max(season.outplant, from + year);
    const int last = std::min(season.last_haul, on_or_after(from, to) + year);
    if (last - first + 1 > best.days()) {
      best = window_of(first, last);
    }
  }
  return best;
}

SeasonWindow water_window(std::span<const float> temperature_nodes, const WindowRules& rules) {
  return found_window(temperature_nodes, rules, 1);
}

SeasonWindow season_window(std::span<const float> temperature_nodes, const WindowRules& rules) {
  SeasonWindow window;
  if (!rules.outplant || !rules.last_haul) {
    window = found_window(temperature_nodes, rules, rules.gear_in.value_or(1));
  }
  return window.state == SeasonState::grows ? clipped(with_given_dates(window, rules), rules)
                                            : window;
}

}  // namespace tidelot
