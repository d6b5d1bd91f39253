// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/turns.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <utility>
#include <vector>

namespace tidelot {
namespace {

constexpr int kManyDays = 200;
constexpr int kWeek = 7;

using YearOfDays = std::array<bool, kDaysPerYear + 1>;  // index = day of year

YearOfDays days_of(const SeasonWindow& season) {
  YearOfDays in{};
  const int last = std::min(season.last_haul, season.outplant + kDaysPerYear - 1);
  for (int day = season.outplant; day <= last; ++day) {
    in[static_cast<std::size_t>(wrapped_day(day))] = true;
  }
  return in;
}

/// Days in a row, round the year; last counts on beyond 365.
struct Run {
  int first, last;
};

/// Longest runs of the days that a test picks.
template <typename Test>
std::vector<Run> runs_of(const Test& picked) {
  std::vector<Run> runs;
  int start = 1;
  while (start <= kDaysPerYear && picked(start)) {
    ++start;
  }
  if (start > kDaysPerYear) {
    return {{1, kDaysPerYear}};
  }
  for (int day = start; day < start + kDaysPerYear; ++day) {
    if (!picked(wrapped_day(day))) {
      continue;
    }
    if (runs.empty() || runs.back().last + 1 != day) {
      runs.push_back({day, day});
    }
    runs.back().last = day;
  }
  return runs;
}

DayOfYear day_before(DayOfYear day) { return wrapped_day(day + kDaysPerYear - 1); }

bool is_in(const YearOfDays& in, DayOfYear day) { return in[static_cast<std::size_t>(day)]; }

/// Days on which one crop's season begins the day after the other's ended.
std::vector<DayOfYear> touching(const YearOfDays& one, const YearOfDays& other) {
  std::vector<DayOfYear> days;
  for (DayOfYear day = 1; day <= kDaysPerYear; ++day) {
    const DayOfYear before = day_before(day);
    const bool changes = is_in(one, day) != is_in(one, before);
    if (changes && is_in(one, day) != is_in(other, day) &&
        is_in(one, before) != is_in(other, before)) {
      days.push_back(day);
    }
  }
  return days;
}

int overlapping_days(const std::vector<Run>& overlaps) {
  int days = 0;
  for (const Run& run : overlaps) {
    days += run.last - run.first + 1;
  }
  return days;
}

/// Days on which the lines may change hands: in an overlap any, and the day after it; of a gap the
/// middle one; where the one season follows the other without a gap, that day (`days`).
std::vector<DayOfYear> change_days(const std::vector<Run>& overlaps, const std::vector<Run>& gaps,
                                   std::vector<DayOfYear> days) {
  const int step = overlapping_days(overlaps) > kManyDays ? kWeek : 1;
  for (const Run& run : overlaps) {
    for (int day = run.first; day <= run.last; day += step) {
      days.push_back(wrapped_day(day));
    }
    days.push_back(wrapped_day(run.last + 1));
  }
  for (const Run& run : gaps) {
    days.push_back(wrapped_day((run.first + run.last + 1) / 2));
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

/// A crop's yield, each season asked for once.
class Asked {
 public:
  explicit Asked(const SeasonYield& yield) : yield_(yield) {}
  double operator()(const SeasonWindow& season) {
    const auto [at, fresh] = known_.try_emplace({season.outplant, season.last_haul}, 0.0);
    if (fresh) {
      at->second = yield_(season);
    }
    return at->second;
  }

 private:
  const SeasonYield& yield_;
  std::map<std::pair<int, int>, double> known_;
};

/// The best of the turns that were looked at.
class Search {
 public:
  Search(const SeasonWindow& first, const SeasonWindow& second, bool cut,
         const SeasonYield& of_first, const SeasonYield& of_second)
      : first_(first), second_(second), of_first_(of_first), of_second_(of_second) {
    best_.cut = cut;
  }

  void look(const std::vector<DayOfYear>& first_days, const std::vector<DayOfYear>& second_days) {
    for (const DayOfYear first_from : first_days) {
      for (const DayOfYear second_from : second_days) {
        if (first_from != second_from) {
          look(first_from, second_from);
        }
      }
    }
  }

  [[nodiscard]] const Turns& best() const { return best_; }

 private:
  void look(DayOfYear first_from, DayOfYear second_from) {
    const SeasonWindow first = part_within(first_, first_from, day_before(second_from));
    const SeasonWindow second = part_within(second_, second_from, day_before(first_from));
    if (first.days() < 1 || second.days() < 1) {
      return;
    }
    const double both = of_first_(first) + of_second_(second);
    if (!found_ || both > most_ || (both == most_ && first.days() > best_.first.days())) {
      best_ = {first_from, second_from, first, second, best_.cut};
      most_ = both;
      found_ = true;
    }
  }

  const SeasonWindow &first_, &second_;
  Asked of_first_, of_second_;
  Turns best_{1, 1, {SeasonState::outside_gear, 0, 0}, {SeasonState::outside_gear, 0, 0}, false};
  double most_ = 0.0;
  bool found_ = false;
};

/// The days less than a week from one.
std::vector<DayOfYear> around(DayOfYear day) {
  std::vector<DayOfYear> days;
  for (int off = 1 - kWeek; off < kWeek; ++off) {
    days.push_back(wrapped_day(day + off + kDaysPerYear));
  }
  return days;
}

}  // namespace

Turns best_turns(const SeasonWindow& first, const SeasonWindow& second, const SeasonYield& of_first,
                 const SeasonYield& of_second) {
  const YearOfDays one = days_of(first), other = days_of(second);
  const auto overlaps = runs_of([&](int d) { return is_in(one, d) && is_in(other, d); });
  const auto gaps = runs_of([&](int d) { return !is_in(one, d) && !is_in(other, d); });
  Search search(first, second, !overlaps.empty(), of_first, of_second);
  const std::vector<DayOfYear> days = change_days(overlaps, gaps, touching(one, other));
  search.look(days, days);
  if (overlapping_days(overlaps) > kManyDays) {
    search.look(around(search.best().first_from), around(search.best().second_from));
  }
  return search.best();
}

}  // namespace tidelot
