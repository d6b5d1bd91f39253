// SPDX-License-Identifier: Apache-2.0
// Dates and times as tables of readings write them.
#pragma once

#include <compare>
#include <optional>
#include <string_view>

namespace tidelot {

/// A calendar day.
struct Day {
  int year = 0;
  int month = 1;  ///< 1..12
  int day = 1;
  friend auto operator<=>(const Day&, const Day&) = default;
};

/// A date with the clock and zone that may stand behind it.
struct Stamp {
  Day day;
  std::optional<double> hours;  ///< into the day
  bool utc = false;             ///< it says so: Z, or an offset of 0
  bool zoned = false;           ///< it names another zone: the day is a local one already
};

/// ISO 8601: "2021-07-04", "2021-07-04T13:05", "2021-07-04 13:05:30.5Z", "...-05:00"; its day may
/// be written "2021/07/04", "4-Jul-2021" or "04 Jul 2021", too. Empty for all else, and for days
/// that no calendar has.
[[nodiscard]] std::optional<Stamp> parse_stamp(std::string_view text);

/// "20/01/2023", "1.20.2023": a day and a month, which first not being told, before the year. Empty
/// for all else.
struct YearLast {
  int first = 0;
  int second = 0;
  int year = 0;
};
[[nodiscard]] std::optional<YearLast> parse_year_last(std::string_view text);

/// "13:05", "13:05:30": hours into the day.
[[nodiscard]] std::optional<double> parse_clock(std::string_view text);

/// Is it a name of UTC ("UTC", "GMT", "Z", "+00:00")?
[[nodiscard]] bool is_utc(std::string_view zone);

/// The local day of a moment in UTC: local time is taken as UTC + longitude/15 hours, in whole
/// hours.
[[nodiscard]] Day local_day(const Day& day, double hours_utc, double lon_deg);

}  // namespace tidelot
