// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace tidelot {

/// A calendar day of a time axis. The day may be one that the Gregorian calendar lacks (30 February
/// of a 360_day year), so it is kept as it is.
struct CfDate {
  int year = 0;
  int month = 1;  ///< 1..12
  int day = 1;    ///< 1..31
  friend bool operator==(const CfDate&, const CfDate&) = default;
};

/// The calendars of the CF conventions (chapter 4.4.1). standard is Julian up to 4 October 1582 and
/// Gregorian from 15 October 1582.
enum class CfCalendar { standard, proleptic_gregorian, julian, no_leap, all_leap, days_360 };

/// What a time axis counts, and from when.
struct CfTimeAxis {
  CfCalendar calendar = CfCalendar::standard;
  double days_per_unit = 1.0;  ///< 0 when it counts whole calendar months
  CfDate epoch;                ///< day from which it counts
  double epoch_seconds = 0.0;  ///< into that day, UTC
};

/// Reads "days since 2001-01-01 00:00:00" with its calendar ("" is standard). Units: seconds,
/// minutes, hours, days, weeks, and months, which count calendar months. A year is refused: it
/// could be 365 days or one of the calendar. Throws std::invalid_argument saying what is not
/// understood.
[[nodiscard]] CfTimeAxis parse_cf_time(std::string_view units, std::string_view calendar);

/// The day on which a value of the axis lies. Throws std::invalid_argument for a value that is not
/// finite, out of all reason (beyond a million years), or a broken number of months.
[[nodiscard]] CfDate cf_date(const CfTimeAxis& axis, double value);

/// Days from 1 January of year 0 of the calendar; negative before.
[[nodiscard]] std::int64_t cf_day_number(CfCalendar calendar, const CfDate& date);

/// The inverse of cf_day_number.
[[nodiscard]] CfDate cf_date_of_day(CfCalendar calendar, std::int64_t number);

/// Its day in a year of 365 days, 1..365: 29 February counts with the 28th; a year of 360 days is
/// stretched.
[[nodiscard]] int common_day(CfCalendar calendar, const CfDate& date);

/// Is it a day of the calendar?
[[nodiscard]] bool is_cf_date(CfCalendar calendar, const CfDate& date);

/// "2004-03-01"
[[nodiscard]] std::string to_text(const CfDate& date);

}  // namespace tidelot
