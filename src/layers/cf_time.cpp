// SPDX-License-Identifier: Apache-2.0
// Calendars by counting: days before a year, days before a month, days of the month. The standard
// calendar is the Julian one up to its last day and the Gregorian one after it.
#include "tidelot/layers/cf_time.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <stdexcept>

#include "tidelot/core/calendar.hpp"

namespace tidelot {
namespace {

constexpr std::array<int, 12> kCommonYear{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
constexpr CfDate kFirstGregorian{1582, 10, 15};
constexpr CfDate kLastJulian{1582, 10, 4};
constexpr double kMaxDays = 3.7e8;  // a million years

std::int64_t floor_div(std::int64_t a, std::int64_t b) {
  return a / b - (a % b != 0 && (a < 0) != (b < 0) ? 1 : 0);
}

std::int64_t floor_mod(std::int64_t a, std::int64_t b) { return a - floor_div(a, b) * b; }

bool earlier(const CfDate& a, const CfDate& b) {
  return a.year != b.year     ? a.year < b.year
         : a.month != b.month ? a.month < b.month
                              : a.day < b.day;
}

/// The calendar that rules at a date: standard is one of two.
CfCalendar plain(CfCalendar calendar, const CfDate& date) {
  if (calendar != CfCalendar::standard) {
    return calendar;
  }
  return earlier(date, kFirstGregorian) ? CfCalendar::julian : CfCalendar::proleptic_gregorian;
}

bool is_leap(CfCalendar calendar, std::int64_t year) {
  switch (calendar) {
    case CfCalendar::proleptic_gregorian:
      return floor_mod(year, 4) == 0 && (floor_mod(year, 100) != 0 || floor_mod(year, 400) == 0);
    case CfCalendar::julian:
      return floor_mod(year, 4) == 0;
    case CfCalendar::all_leap:
      return true;
    default:
      return false;
  }
}

int days_in_month(CfCalendar calendar, std::int64_t year, int month) {
  if (calendar == CfCalendar::days_360) {
    return 30;
  }
  const int leap_day = month == 2 && is_leap(calendar, year) ? 1 : 0;
  return kCommonYear[static_cast<std::size_t>(month - 1)] + leap_day;
}

/// Leap days in the years 0 .. year-1 (negative before year 0).
std::int64_t leap_days_before(CfCalendar calendar, std::int64_t year) {
  const std::int64_t last = year - 1;
  const std::int64_t fours = floor_div(last, 4) + 1;  // year 0 is a multiple of all
  switch (calendar) {
    case CfCalendar::proleptic_gregorian:
      return fours - (floor_div(last, 100) + 1) + floor_div(last, 400) + 1;
    case CfCalendar::julian:
      return fours;
    case CfCalendar::all_leap:
      return year;
    default:
      return 0;
  }
}

std::int64_t days_before_year(CfCalendar calendar, std::int64_t year) {
  const std::int64_t length = calendar == CfCalendar::days_360 ? 360 : 365;
  return year * length + leap_days_before(calendar, year);
}

/// Day number in one of the calendars that need no switch.
std::int64_t plain_number(CfCalendar calendar, const CfDate& date) {
  std::int64_t number = days_before_year(calendar, date.year) + date.day - 1;
  for (int month = 1; month < date.month; ++month) {
    number += days_in_month(calendar, date.year, month);
  }
  return number;
}

CfDate plain_date(CfCalendar calendar, std::int64_t number) {
  std::int64_t year = floor_div(number, number < 0 ? 360 : 366);  // not after the true one
  while (days_before_year(calendar, year + 1) <= number) {
    const std::int64_t left = number - days_before_year(calendar, year + 1);
    year += 1 + left / 367;
  }
  int rest = static_cast<int>(number - days_before_year(calendar, year));
  int month = 1;
  while (rest >= days_in_month(calendar, year, month)) {
    rest -= days_in_month(calendar, year, month);
    ++month;
  }
  return {static_cast<int>(year), month, rest + 1};
}

/// Gregorian day numbers exceed the Julian ones of the same days by this much, both counted from
/// their own 1 January of year 0.
std::int64_t switch_offset() {
  return plain_number(CfCalendar::proleptic_gregorian, kFirstGregorian) -
         plain_number(CfCalendar::julian, kLastJulian) - 1;
}

CfDate months_later(const CfTimeAxis& axis, double months) {
  if (std::round(months) != months) {
    throw std::invalid_argument(
        fmt::format("{} months is not a whole number of calendar months", months));
  }
  const std::int64_t count =
      std::int64_t{axis.epoch.year} * 12 + axis.epoch.month - 1 + static_cast<std::int64_t>(months);
  CfDate date{static_cast<int>(floor_div(count, 12)), static_cast<int>(floor_mod(count, 12)) + 1,
              axis.epoch.day};
  while (!is_cf_date(axis.calendar, date) && date.day > 1) {
    --date.day;
  }
  return date;
}

}  // namespace

bool is_cf_date(CfCalendar calendar, const CfDate& date) {
  if (date.month < 1 || date.month > 12 || date.day < 1) {
    return false;
  }
  const bool skipped = calendar == CfCalendar::standard && earlier(kLastJulian, date) &&
                       earlier(date, kFirstGregorian);
  return !skipped && date.day <= days_in_month(plain(calendar, date), date.year, date.month);
}

std::int64_t cf_day_number(CfCalendar calendar, const CfDate& date) {
  const CfCalendar ruling = plain(calendar, date);
  const bool switched =
      calendar == CfCalendar::standard && ruling == CfCalendar::proleptic_gregorian;
  return plain_number(ruling, date) - (switched ? switch_offset() : 0);
}

CfDate cf_date_of_day(CfCalendar calendar, std::int64_t number) {
  if (calendar != CfCalendar::standard) {
    return plain_date(calendar, number);
  }
  const bool julian = number <= plain_number(CfCalendar::julian, kLastJulian);
  return julian ? plain_date(CfCalendar::julian, number)
                : plain_date(CfCalendar::proleptic_gregorian, number + switch_offset());
}

CfDate cf_date(const CfTimeAxis& axis, double value) {
  const double unit = axis.days_per_unit > 0.0 ? axis.days_per_unit : 30.0;
  if (!(std::abs(value * unit) <= kMaxDays)) {
    throw std::invalid_argument(fmt::format("the time {} is out of all reason", value));
  }
  if (axis.days_per_unit == 0.0) {
    return months_later(axis, value);
  }
  // A float axis gives 58.999999 for noon-less days; a second is far below what a month needs.
  const double days = value * axis.days_per_unit + axis.epoch_seconds / 86400.0 + 0.5 / 86400.0;
  return cf_date_of_day(axis.calendar, cf_day_number(axis.calendar, axis.epoch) +
                                           static_cast<std::int64_t>(std::floor(days)));
}

int common_day(CfCalendar calendar, const CfDate& date) {
  if (calendar == CfCalendar::days_360) {
    const double noon = (date.month - 1) * 30 + date.day - 0.5;
    return static_cast<int>(noon / 360.0 * 365.0) + 1;
  }
  const bool leap_day = date.month == 2 && date.day == 29;
  return first_day_of_month(date.month - 1) + date.day - (leap_day ? 2 : 1);
}

std::string to_text(const CfDate& date) {
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

}  // namespace tidelot
