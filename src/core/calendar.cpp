// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/calendar.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace tidelot {
namespace {

constexpr std::array<std::string_view, kMonths> kNames{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

std::optional<int> two_digits(std::string_view text) {
  if (text.size() != 2 || text[0] < '0' || text[0] > '9' || text[1] < '0' || text[1] > '9') {
    return std::nullopt;
  }
  return (text[0] - '0') * 10 + (text[1] - '0');
}

}  // namespace

std::optional<DayOfYear> parse_month_day(std::string_view text) {
  if (text.size() != 5 || text[2] != '-') {
    return std::nullopt;
  }
  const auto month = two_digits(text.substr(0, 2));
  const auto day = two_digits(text.substr(3, 2));
  if (!month || !day || *month < 1 || *month > kMonths || *day < 1 ||
      *day > kMonthDays[static_cast<std::size_t>(*month - 1)]) {
    return std::nullopt;
  }
  return first_day_of_month(*month - 1) + *day - 1;
}

std::string format_month_day(DayOfYear day) {
  const int month = month_of(day);
  return fmt::format("{:02}-{:02}", month + 1, wrapped_day(day) - first_day_of_month(month) + 1);
}

DayOfYear wrapped_day(int day) {
  return (day % kDaysPerYear + kDaysPerYear - 1) % kDaysPerYear + 1;
}

int month_of(DayOfYear day) {
  const int wanted = wrapped_day(day);
  int month = 0;
  while (month < kMonths - 1 && first_day_of_month(month + 1) <= wanted) {
    ++month;
  }
  return month;
}

DayOfYear first_day_of_month(int month) {
  int day = 1;
  for (int m = 0; m < month; ++m) {
    day += kMonthDays[static_cast<std::size_t>(m)];
  }
  return day;
}

double middle_of_month(int month) {
  return first_day_of_month(month) - 1 + kMonthDays[static_cast<std::size_t>(month)] / 2.0;
}

std::uint16_t months_between(DayOfYear first, DayOfYear last) {
  std::uint16_t months = 0;
  for (DayOfYear day = first; day <= std::min(last, first + kDaysPerYear); ++day) {
    months |= static_cast<std::uint16_t>(1U << static_cast<unsigned>(month_of(wrapped_day(day))));
  }
  return months;
}

std::string_view month_name(int month) { return kNames[static_cast<std::size_t>(month)]; }

}  // namespace tidelot
