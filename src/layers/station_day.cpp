// SPDX-License-Identifier: Apache-2.0
#include "station_day.hpp"

#include <cmath>

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

std::optional<Day> take_day(std::string_view& text) {
  const auto year = take_digits(text, 4);
  const auto month = year && take(text, '-') ? take_digits(text, 2) : std::nullopt;
  const auto day = month && take(text, '-') ? take_digits(text, 2) : std::nullopt;
  if (!day || *year < 1800 || *year > 2200 || !is_cf_date(kCalendar, {*year, *month, *day})) {
    return std::nullopt;
  }
  return Day{*year, *month, *day};
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
