// SPDX-License-Identifier: Apache-2.0
#include "station_day.hpp"

#include <cmath>

#include "tidelot/core/calendar.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/layers/cf_time.hpp"

namespace tidelot {
namespace {

constexpr auto kCalendar = CfCalendar::proleptic_gregorian;

/// The digits at the front of a text as a number, exactly so many of them; taken off.
std::optional<int> take_digits(std::string_view& text, std::size_t count) {
  if (text.size() < count) {
    return std::nullopt;
  }
  int value = 0;
  for (std::size_t i = 0; i < count; ++i) {
    if (text[i] < '0' || text[i] > '9') {
      return std::nullopt;
    }
    value = value * 10 + (text[i] - '0');
  }
  text.remove_prefix(count);
  return value;
}

bool take(std::string_view& text, char wanted) {
  const bool here = text.starts_with(wanted);
  text.remove_prefix(here ? 1 : 0);
  return here;
}

bool exists(int year, int month, int day) {
  return year >= 1800 && year <= 2200 && is_cf_date(kCalendar, {year, month, day});
}

std::optional<int> take_month_name(std::string_view& text) {
  const std::string word = lower_ascii(text.substr(0, 3));
  for (int m = 0; m < kMonths; ++m) {
    if (word == lower_ascii(month_name(m))) {
      text.remove_prefix(3);
      return m + 1;
    }
  }
  return std::nullopt;
}

/// One digit or two.
std::optional<int> take_number(std::string_view& text) {
  const auto two = take_digits(text, 2);
  return two ? two : take_digits(text, 1);
}

/// "2021-07-04", "2021/07/04"
std::optional<Day> take_year_first(std::string_view& text) {
  const auto year = take_digits(text, 4);
  const char between = text.starts_with('/') ? '/' : '-';
  const auto month = year && take(text, between) ? take_digits(text, 2) : std::nullopt;
  const auto day = month && take(text, between) ? take_digits(text, 2) : std::nullopt;
  return day && exists(*year, *month, *day) ? std::optional(Day{*year, *month, *day})
                                            : std::nullopt;
}

/// "4-Jul-2021", "04 Jul 2021"
std::optional<Day> take_named_month(std::string_view& text) {
  const auto day = take_number(text);
  const char between = text.starts_with(' ') ? ' ' : '-';
  const auto month = day && take(text, between) ? take_month_name(text) : std::nullopt;
  const auto year = month && take(text, between) ? take_digits(text, 4) : std::nullopt;
  return year && exists(*year, *month, *day) ? std::optional(Day{*year, *month, *day})
                                             : std::nullopt;
}

std::optional<Day> take_day(std::string_view& text) {
  std::string_view rest = text;
  auto day = take_year_first(rest);
  if (!day) {
    rest = text;
    day = take_named_month(rest);
  }
  text = rest;
  return day;
}

std::optional<double> take_clock(std::string_view& text) {
  const auto hour = take_digits(text, 2);
  const auto minute = hour && take(text, ':') ? take_digits(text, 2) : std::nullopt;
  if (!minute || *hour > 24 || *minute > 59) {
    return std::nullopt;
  }
  int second = 0;
  if (take(text, ':')) {
    const auto given = take_digits(text, 2);
    if (!given || *given > 60) {
      return std::nullopt;
    }
    second = *given;
    if (take(text, '.')) {
      while (take_digits(text, 1)) {
      }
    }
  }
  return *hour + *minute / 60.0 + second / 3600.0;
}

/// "+05:30", "-0500", "+02"
bool is_offset(std::string_view zone) {
  const bool sign = take(zone, '+') || take(zone, '-');
  const bool hours = sign && take_digits(zone, 2);
  take(zone, ':');
  return hours && (zone.empty() || (take_digits(zone, 2) && zone.empty()));
}

}  // namespace

bool is_utc(std::string_view zone) {
  const std::string word = lower_ascii(zone);
  return word == "utc" || word == "gmt" || word == "z" || word == "uct" || word == "+00:00" ||
         word == "-00:00" || word == "+0000" || word == "+00";
}

std::optional<double> parse_clock(std::string_view text) {
  const auto hours = take_clock(text);
  return text.empty() ? hours : std::nullopt;
}

std::optional<YearLast> parse_year_last(std::string_view text) {
  const auto first = take_number(text);
  const char between = text.empty() ? '/' : text.front();
  const bool parted = first && (between == '/' || between == '.' || between == '-');
  const auto second = parted && take(text, between) ? take_number(text) : std::nullopt;
  const auto year = second && take(text, between) ? take_digits(text, 4) : std::nullopt;
  const bool ends = text.empty() || text.front() == ' ' || text.front() == 'T';
  return year && ends ? std::optional(YearLast{*first, *second, *year}) : std::nullopt;
}

std::optional<Stamp> parse_stamp(std::string_view text) {
  Stamp stamp;
  const auto day = take_day(text);
  if (!day) {
    return std::nullopt;
  }
  stamp.day = *day;
  if (text.empty()) {
    return stamp;
  }
  if (!take(text, 'T') && !take(text, ' ')) {
    return std::nullopt;
  }
  stamp.hours = take_clock(text);
  stamp.utc = is_utc(text);
  stamp.zoned = !stamp.utc && is_offset(text);
  const bool good = stamp.hours && (text.empty() || stamp.utc || stamp.zoned);
  return good ? std::optional(stamp) : std::nullopt;
}

Day local_day(const Day& day, double hours_utc, double lon_deg) {
  const double local = hours_utc + std::round(lon_deg / 15.0);
  const auto shift = static_cast<std::int64_t>(std::floor(local / 24.0));
  const CfDate moved =
      cf_date_of_day(kCalendar, cf_day_number(kCalendar, {day.year, day.month, day.day}) + shift);
  return {moved.year, moved.month, moved.day};
}

}  // namespace tidelot
