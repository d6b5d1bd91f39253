// SPDX-License-Identifier: Apache-2.0
#include "step_use.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <set>
#include <utility>

#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr int kLongestYear = 366;
/// A year's month of which less than this was seen stands behind where another year saw more.
constexpr double kSeen = 0.5;

using Steps = std::vector<TimeStep>;

[[noreturn]] void refuse(const StepWish& wish, const std::string& what) {
  throw Error(Fault::input, fmt::format("{}: {}: {}", wish.key, wish.written, what));
}

std::string with_times(const RasterInfo& info) {
  return info.times.empty() ? "" : fmt::format(" ({})", info.times);
}

const TimeStep& at(const Steps& steps, int i) { return steps[static_cast<std::size_t>(i)]; }

std::vector<int> in_order_of_time(const Steps& steps) {
  std::vector<int> order(steps.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](int a, int b) { return at(steps, a).number < at(steps, b).number; });
  return order;
}

void check_every_month(const RasterInfo& info, const StepWish& wish) {
  std::set<int> seen;
  for (const TimeStep& step : info.steps) {
    seen.insert(step.month);
  }
  std::string missing;
  for (int month = 0; month < kMonths; ++month) {
    if (seen.count(month) == 0) {
      missing += fmt::format("{}{}", missing.empty() ? "" : ", ", month_name(month));
    }
  }
  if (!missing.empty()) {
    refuse(wish, fmt::format("has {} steps of time{} and none in {}; every month needs one: give a "
                             "longer series, or twelve monthly values",
                             info.steps.size(), with_times(info), missing));
  }
}

/// Days to the nearest other step, at most a month.
std::vector<double> days_of_steps(const Steps& steps, const std::vector<int>& order) {
  std::vector<double> days(order.size(), 1.0);
  for (std::size_t i = 0; i < order.size(); ++i) {
    double nearest = 31.0;
    for (const std::size_t other : {i - 1, i + 1}) {
      if (other < order.size()) {
        nearest = std::min(nearest, std::abs(static_cast<double>(at(steps, order[i]).number -
                                                                 at(steps, order[other]).number)));
      }
    }
    days[i] = nearest;
  }
  return days;
}

/// Takes away the steps of a year's month that was hardly seen (the ragged ends of a series), where
/// another year saw it: its few days would stand for the whole month.
std::vector<int> without_ragged_months(const Steps& steps, const std::vector<int>& order) {
  std::map<std::pair<int, int>, double> seen;
  const std::vector<double> days = days_of_steps(steps, order);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const TimeStep& step = at(steps, order[i]);
    // Steps of one day (hours) have no days between them: they count as the day once.
    const bool again = i > 0 && days[i] == 0.0 && at(steps, order[i - 1]).number == step.number;
    seen[{step.month, step.year}] += days[i] > 0.0 ? days[i] : (again ? 0.0 : 1.0);
  }
  std::array<bool, kMonths> well_seen{};
  const auto share = [](const auto& entry) {
    return entry.second / kMonthDays[static_cast<std::size_t>(entry.first.first)];
  };
  for (const auto& entry : seen) {
    well_seen[static_cast<std::size_t>(entry.first.first)] |= share(entry) >= kSeen;
  }
  std::vector<int> kept;
  std::copy_if(order.begin(), order.end(), std::back_inserter(kept), [&](int i) {
    const TimeStep& step = at(steps, i);
    const auto entry = *seen.find({step.month, step.year});
    return share(entry) >= kSeen || !well_seen[static_cast<std::size_t>(step.month)];
  });
  return kept;
}

std::string years_of(const RasterInfo& info, const std::vector<int>& order) {
  if (info.climatology) {
    return info.years.empty() ? "a mean year" : "the mean year of " + info.years;
  }
  std::set<int> years;
  for (const int i : order) {
    years.insert(at(info.steps, i).year);
  }
  return years.size() == 1
             ? fmt::format("{}", *years.begin())
             : fmt::format("{} to {}, {} years", *years.begin(), *years.rbegin(), years.size());
}

bool is_one_year(const RasterInfo& info, const std::vector<int>& order) {
  return info.climatology ||
         at(info.steps, order.back()).number - at(info.steps, order.front()).number < kLongestYear;
}

void use_months(const RasterInfo& info, const StepWish& wish, StepUse& use) {
  check_every_month(info, wish);
  use.nodes = YearNodes::months;
  const std::size_t all = use.order.size();
  if (!is_one_year(info, use.order)) {
    use.order = without_ragged_months(info.steps, use.order);
  }
  if (use.order.size() == kMonths) {
    use.said = years_of(info, use.order) + ": a step a month";
    use.plain.resize(kMonths);
    for (const int i : use.order) {
      use.plain[static_cast<std::size_t>(at(info.steps, i).month)] = i;
    }
    return;
  }
  use.said = fmt::format("{}: {} steps to twelve monthly means{}", years_of(info, use.order),
                         use.order.size(),
                         is_one_year(info, use.order) ? "" : ", each year's month first");
  if (use.order.size() < all) {
    use.warnings.push_back(fmt::format(
        "{}: {}: {} steps at the ends of the series are left out: their year has less than half of "
        "the month, and other years have more",
        wish.key, wish.written, all - use.order.size()));
  }
}

void check_gaps(const RasterInfo& info, const StepWish& wish, const StepUse& use) {
  std::vector<std::int64_t> days;
  for (const int i : use.order) {
    days.push_back(common_number(at(info.steps, i)));
  }
  if (use.closed) {
    days.push_back(days.front() + kDaysPerYear);
  }
  for (std::size_t i = 1; i < days.size(); ++i) {
    if (days[i] - days[i - 1] > kLongestGap) {
      refuse(wish, fmt::format("has steps {} days apart{}; day by day they may lie {} apart: set "
                               "{}.steps = \"monthly\", or give a fuller series",
                               days[i] - days[i - 1], with_times(info), kLongestGap, wish.key));
    }
  }
}

void use_days(const RasterInfo& info, const StepWish& wish, StepUse& use) {
  check_every_month(info, wish);
  use.nodes = YearNodes::days;
  use.closed = is_one_year(info, use.order);
  check_gaps(info, wish, use);
  std::set<int> days;
  for (const int i : use.order) {
    days.insert(at(info.steps, i).day);
  }
  const bool each_day = days.size() == kDaysPerYear;
  if (each_day && use.order.size() == kDaysPerYear) {
    use.plain.resize(kDaysPerYear);
    for (const int i : use.order) {
      use.plain[static_cast<std::size_t>(at(info.steps, i).day - 1)] = i;
    }
  }
  use.said = fmt::format("{}: {} steps used day by day{}{}", years_of(info, use.order),
                         use.order.size(), use.closed ? "" : ", each day the mean of its years",
                         each_day && use.closed ? "" : ", straight in time between steps");
}

LevelPick pick_level(const RasterInfo& info, const StepWish& wish, StepUse& use) {
  if (info.levels_m.empty()) {
    return {};
  }
  std::vector<int> order(info.levels_m.size());
  std::iota(order.begin(), order.end(), 0);
  const auto depth = [&](int i) { return info.levels_m[static_cast<std::size_t>(i)]; };
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return depth(a) < depth(b); });
  const double wanted = wish.line_depth_m;
  const auto below =
      std::find_if(order.begin(), order.end(), [&](int i) { return depth(i) >= wanted; });
  const std::string note = info.levels_basis.empty() ? "" : "; " + info.levels_basis;
  if (below == order.end() || below == order.begin() || depth(*below) == wanted) {
    const int one = below == order.end() ? order.back() : *below;
    use.said = fmt::format("the level at {} m for the line at {} m{}", shortest(depth(one)),
                           shortest(wanted), note);
    if (below == order.end()) {
      use.warnings.push_back(
          fmt::format("{}: {}: its deepest level, {} m, stands for the line at {} m", wish.key,
                      wish.written, shortest(depth(one)), shortest(wanted)));
    }
    return {one, one, 0.0};
  }
  const int above = *(below - 1);
  use.said = fmt::format("between the levels at {} and {} m for the line at {} m{}",
                         shortest(depth(above)), shortest(depth(*below)), shortest(wanted), note);
  return {above, *below, (wanted - depth(above)) / (depth(*below) - depth(above))};
}

/// Bands instead of steps, where a node is one band.
void finish(const RasterInfo& info, const StepWish& wish, StepUse& use) {
  const std::string steps_said = std::exchange(use.said, "");
  use.level = pick_level(info, wish, use);
  use.said =
      steps_said.empty() || use.said.empty() ? steps_said + use.said : steps_said + "; " + use.said;
  if (use.level.weight != 0.0) {
    use.plain.clear();
  }
  for (int& band : use.plain) {
    band = info.band(band, use.level.upper);
  }
}

int steps_in(const RasterInfo& info) {
  return info.bands / std::max<int>(1, static_cast<int>(info.levels_m.size()));
}

/// Twelve steps without dates are January to December.
void use_without_dates(const RasterInfo& info, const StepWish& wish, StepUse& use) {
  const int steps = steps_in(info);
  if (steps != kMonths) {
    refuse(wish, fmt::format("has {} bands{} and no axis of time; twelve are needed, one a month, "
                             "or one for the whole year",
                             info.bands, with_times(info)));
  }
  use.nodes = YearNodes::months;
  use.order.resize(kMonths);
  std::iota(use.order.begin(), use.order.end(), 0);
  use.plain = use.order;
}

}  // namespace

int count_of(YearNodes nodes) {
  return nodes == YearNodes::one ? 1 : nodes == YearNodes::months ? kMonths : kDaysPerYear;
}

StepUse use_of_one_step(const RasterInfo& info, const StepWish& wish) {
  StepUse use;
  use.order = {0};
  use.plain = {0};
  finish(info, wish, use);
  return use;
}

StepUse use_of_steps(const RasterInfo& info, const StepWish& wish) {
  if (steps_in(info) == 1) {
    return use_of_one_step(info, wish);
  }
  StepUse use;
  if (info.steps.empty()) {
    use_without_dates(info, wish, use);
    finish(info, wish, use);
    return use;
  }
  use.order = in_order_of_time(info.steps);
  const bool fine = info.steps.size() > kMonths && is_one_year(info, use.order);
  const bool daily =
      wish.steps == WaterPlan::Steps::daily || (wish.steps == WaterPlan::Steps::automatic && fine);
  if (daily) {
    use_days(info, wish, use);
  } else {
    use_months(info, wish, use);
  }
  finish(info, wish, use);
  return use;
}

std::string longest_gap(const RasterInfo& info) {
  std::int64_t longest = 0;
  const std::vector<int> order = in_order_of_time(info.steps);
  for (std::size_t i = 1; i < order.size(); ++i) {
    const auto number = [&](std::size_t k) {
      return info.steps[static_cast<std::size_t>(order[k])].number;
    };
    longest = std::max(longest, number(i) - number(i - 1));
  }
  return info.steps.size() < 2 ? "" : fmt::format("{} day{}", longest, longest == 1 ? "" : "s");
}

}  // namespace tidelot
