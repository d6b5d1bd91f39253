// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace tidelot {

/// Days of the model's year. Leap days are left out: a season is the same in every year.
inline constexpr int kDaysPerYear = 365;
inline constexpr int kMonths = 12;

/// Days in each month, January first.
inline constexpr std::array<int, kMonths> kMonthDays{31, 28, 31, 30, 31, 30,
                                                     31, 31, 30, 31, 30, 31};

/// Day of the year, 1 (1 January) to 365 (31 December).
using DayOfYear = int;

/// "05-15" -> 135; empty when it is not a day of a 365-day year.
[[nodiscard]] std::optional<DayOfYear> parse_month_day(std::string_view text);

/// 135 -> "05-15". Days beyond 365 wrap round, so a season may run over the new year.
[[nodiscard]] std::string format_month_day(DayOfYear day);

/// A day counted on (or back) over the new year as a day of the year: 366 -> 1, 0 -> 365.
[[nodiscard]] DayOfYear wrapped_day(int day);

/// Month (0..11) of a day of the year; wraps like format_month_day.
[[nodiscard]] int month_of(DayOfYear day);

/// First day of the year (1-based) of a month 0..11.
[[nodiscard]] DayOfYear first_day_of_month(int month);

/// Middle of a month in days since the year began: 15.5 for January, 349.5... for December.
[[nodiscard]] double middle_of_month(int month);

/// The months that the days from first to last touch, bit 0 January. last may lie beyond 365: over
/// the new year; all twelve where it is a year or more after first.
[[nodiscard]] std::uint16_t months_between(DayOfYear first, DayOfYear last);
/// Short English month name, 0..11 -> "Jan".."Dec".
[[nodiscard]] std::string_view month_name(int month);

}  // namespace tidelot
