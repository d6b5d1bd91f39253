// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/limits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "tidelot/season/tide_light.hpp"

namespace tidelot {
namespace {

constexpr double kFree = 0.95;
constexpr double kNever = std::numeric_limits<double>::infinity();

struct LimitName {
  std::string_view word, phrase;
};
constexpr std::array<LimitName, kLimits> kNames{{{"cold", "cold water"},
                                                 {"warm", "warm water"},
                                                 {"fresh", "fresh water"},
                                                 {"salty", "salty water"},
                                                 {"light", "light"},
                                                 {"nitrogen", "nitrogen"},
                                                 {"crowding", "crowding on the line"},
                                                 {"nothing", "nothing"}}};

/// Up to where a curve is 0 from its first point on, or never.
template <typename Iterator>
double end_of_zero(Iterator first, Iterator last, double never) {
  const auto above = std::find_if(first, last, [](const Curve::Point& p) { return p.y > 0.0; });
  return above == first || above == last ? never : std::prev(above)->x;
}

double middle_of_best(const std::vector<Curve::Point>& points) {
  const auto lower = [](const Curve::Point& a, const Curve::Point& b) { return a.y < b.y; };
  const auto first = std::max_element(points.begin(), points.end(), lower);
  const auto last = std::max_element(points.rbegin(), points.rend(), lower);
  return (first->x + last->x) / 2.0;
}

/// Light above that of the reference culture counts as 1: it holds nothing back.
std::array<double, kFactors> factors_of(const DayTrace& day) {
  return {day.f_temperature, day.f_salinity, std::min(1.0, day.f_light), day.f_nitrogen,
          day.f_density};
}

/// The side of a factor whose days cost more.
Limit dearer_side(Factor factor, std::span<const DayTrace> days,
                  const LimitThresholds& thresholds) {
  std::array<double, kLimits> cost{};
  Limit dearest = Limit::nothing;
  for (const DayTrace& day : days) {
    const Limit side = limit_of(factor, day.forcing.temperature, day.forcing.salinity, thresholds);
    double& sum = cost[static_cast<std::size_t>(side)];
    sum += 1.0 - factors_of(day)[static_cast<std::size_t>(factor)];
    dearest = sum > cost[static_cast<std::size_t>(dearest)] ? side : dearest;
  }
  return dearest;
}

Limit limit_of_month(const SeasonMonth& month, std::span<const DayTrace> days,
                     const LimitThresholds& thresholds) {
  const auto lowest = std::min_element(month.mean_factor.begin(), month.mean_factor.end());
  return *lowest >= kFree ? Limit::nothing
                          : dearer_side(static_cast<Factor>(lowest - month.mean_factor.begin()),
                                        days, thresholds);
}

SeasonMonth month_of_season(std::span<const DayTrace> days, DayOfYear first,
                            const Husbandry& husbandry, const LimitThresholds& thresholds) {
  SeasonMonth month;
  month.month = month_of(first);
  month.first = first;
  month.days = static_cast<int>(days.size());
  const double share = 1.0 / static_cast<double>(days.size());
  for (const DayTrace& day : days) {
    month.temperature += share * day.forcing.temperature;
    month.salinity += share * day.forcing.salinity;
    month.light_at_line += share * light_at_line(day.forcing, husbandry);
    month.nitrogen += share * day.forcing.nitrogen;
    month.growth_per_day += share * day.growth_per_day;
    const auto factors = factors_of(day);
    for (std::size_t f = 0; f < factors.size(); ++f) {
      month.mean_factor[f] += share * factors[f];
    }
  }
  month.limit = limit_of_month(month, days, thresholds);
  month.beyond = days_beyond(days, thresholds);
  return month;
}

}  // namespace

std::string_view limit_word(Limit limit) { return kNames[static_cast<std::size_t>(limit)].word; }

std::string_view limit_phrase(Limit limit) {
  return kNames[static_cast<std::size_t>(limit)].phrase;
}

LimitThresholds limit_thresholds(const Crop& crop) {
  const std::vector<Curve::Point>& points = crop.salinity.points();
  const GrowthRange range = growth_range(crop);
  return {range.t_min,
          range.t_opt,
          range.t_max,
          end_of_zero(points.begin(), points.end(), -kNever),
          end_of_zero(points.rbegin(), points.rend(), kNever),
          middle_of_best(points)};
}

Limit limit_of(Factor factor, bool warm, bool salty) {
  switch (factor) {
    case Factor::temperature:
      return warm ? Limit::warm : Limit::cold;
    case Factor::salinity:
      return salty ? Limit::salty : Limit::fresh;
    case Factor::light:
      return Limit::light;
    case Factor::nitrogen:
      return Limit::nitrogen;
    case Factor::crowding:
      return Limit::crowding;
  }
  return Limit::nothing;
}

Limit limit_of(Factor factor, double temperature, double salinity,
               const LimitThresholds& thresholds) {
  return limit_of(factor, temperature >= thresholds.t_opt, salinity >= thresholds.salinity_best);
}

ToleranceDays days_beyond(std::span<const DayTrace> days, const LimitThresholds& thresholds) {
  ToleranceDays count;
  for (const DayTrace& day : days) {
    count.too_cold += day.forcing.temperature <= thresholds.t_min ? 1 : 0;
    count.too_warm += day.forcing.temperature >= thresholds.t_max ? 1 : 0;
    count.too_fresh += day.forcing.salinity <= thresholds.salinity_min ? 1 : 0;
    count.too_salty += day.forcing.salinity >= thresholds.salinity_max ? 1 : 0;
  }
  return count;
}

std::string days_text(const ToleranceDays& days) {
  std::string text;
  const auto add = [&](int count, std::string_view what) {
    if (count > 0) {
      text += fmt::format("{}{} {}", text.empty() ? "" : ", ", count, what);
    }
  };
  add(days.too_cold, "too cold");
  add(days.too_warm, "too warm");
  add(days.too_fresh, "too fresh");
  add(days.too_salty, "too salty");
  return text.empty() ? "none" : text;
}

double light_at_line(const DayForcing& day, const Husbandry& husbandry) {
  if (!(day.day_length_h > 0.0)) {
    return 0.0;
  }
  return day.par_mol * 1e6 / (3600.0 * day.day_length_h) *
         std::exp(-day.attenuation * husbandry.line_depth_m) *
         tide_light(day.attenuation, husbandry.tide_m);
}

std::vector<SeasonMonth> season_months(std::span<const DayTrace> days, DayOfYear outplant,
                                       const Husbandry& husbandry,
                                       const LimitThresholds& thresholds) {
  std::vector<SeasonMonth> months;
  for (std::size_t from = 0; from < days.size();) {
    const DayOfYear first = outplant + static_cast<int>(from);
    std::size_t to = from + 1;
    while (to < days.size() && month_of(outplant + static_cast<int>(to)) == month_of(first)) {
      ++to;
    }
    months.push_back(month_of_season(days.subspan(from, to - from), first, husbandry, thresholds));
    from = to;
  }
  return months;
}

std::string limits_by_month(std::span<const SeasonMonth> months) {
  std::string text;
  for (const SeasonMonth& month : months) {
    text += fmt::format("{}{} {}", text.empty() ? "" : "; ", month_name(month.month),
                        limit_word(month.limit));
  }
  return text;
}

}  // namespace tidelot
