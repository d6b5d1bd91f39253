// SPDX-License-Identifier: Apache-2.0
// The words of a time axis: "hours since 1900-01-01 00:00:00.0 UTC", "gregorian".
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <utility>

#include "tidelot/core/text.hpp"
#include "tidelot/layers/cf_time.hpp"

namespace tidelot {
namespace {

[[noreturn]] void not_understood(std::string_view what, std::string_view text) {
  throw std::invalid_argument(
      fmt::format("the time axis's {} \"{}\" is not understood", what, text));
}

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

CfCalendar calendar_of(std::string_view text) {
  constexpr std::array<std::pair<std::string_view, CfCalendar>, 10> kNames{{
      {"", CfCalendar::standard},
      {"standard", CfCalendar::standard},
      {"gregorian", CfCalendar::standard},
      {"proleptic_gregorian", CfCalendar::proleptic_gregorian},
      {"julian", CfCalendar::julian},
      {"noleap", CfCalendar::no_leap},
      {"365_day", CfCalendar::no_leap},
      {"all_leap", CfCalendar::all_leap},
      {"366_day", CfCalendar::all_leap},
      {"360_day", CfCalendar::days_360},
  }};
  const std::string wanted = lower_ascii(trimmed(text));
  for (const auto& [name, calendar] : kNames) {
    if (name == wanted) {
      return calendar;
    }
  }
  not_understood("calendar", text);
}

/// Days in a unit; 0 for months. UDUNITS spellings, singular and plural.
std::optional<double> days_in_unit(std::string_view word) {
  struct Unit {
    std::string_view names;
    double days;
  };
  constexpr std::array<Unit, 6> kUnits{{
      {" s sec secs second seconds ", 1.0 / 86400.0},
      {" min mins minute minutes ", 1.0 / 1440.0},
      {" h hr hrs hour hours ", 1.0 / 24.0},
      {" d day days ", 1.0},
      {" week weeks ", 7.0},
      {" month months ", 0.0},
  }};
  const std::string padded = fmt::format(" {} ", lower_ascii(word));
  for (const Unit& unit : kUnits) {
    if (unit.names.find(padded) != std::string_view::npos) {
      return unit.days;
    }
  }
  return std::nullopt;
}

/// Takes a number off the front of text.
template <typename Number>
std::optional<Number> take_number(std::string_view& text) {
  Number value{};
  const char* const begin = text.data();
  const auto [end, error] = std::from_chars(begin, begin + text.size(), value);
  if (error != std::errc{}) {
    return std::nullopt;
  }
  text.remove_prefix(static_cast<std::size_t>(end - begin));
  return value;
}

bool take(std::string_view& text, char wanted) {
  if (text.empty() || text.front() != wanted) {
    return false;
  }
  text.remove_prefix(1);
  return true;
}

/// "2001-01-01" or "2001-1-1"; the year may be 0 or negative.
std::optional<CfDate> take_date(std::string_view& text) {
  CfDate date;
  const auto year = take_number<int>(text);
  const bool dash = take(text, '-');
  const auto month = take_number<int>(text);
  if (!year || !dash || !month || std::abs(*year) > 999999) {
    return std::nullopt;
  }
  date.year = *year;
  date.month = *month;
  if (take(text, '-')) {
    const auto day = take_number<int>(text);
    date.day = day.value_or(0);
  }
  return date;
}

/// "", "12", "12:00", "12:00:00.5": seconds into the day.
std::optional<double> take_clock(std::string_view& text) {
  if (text.empty() || text.front() < '0' || text.front() > '9') {
    return 0.0;
  }
  double seconds = 0.0;
  for (const double unit : {3600.0, 60.0, 1.0}) {
    const auto part = take_number<double>(text);
    if (!part || !(*part >= 0.0 && *part < 60.0)) {
      return std::nullopt;
    }
    seconds += *part * unit;
    if (!take(text, ':')) {
      break;
    }
  }
  return seconds < 86400.0 ? std::optional(seconds) : std::nullopt;
}

/// "", "Z", "UTC", "GMT", "+02:00", "-5": what has to be added to get to UTC, in seconds.
std::optional<double> zone_seconds(std::string_view text) {
  const std::string word = lower_ascii(text);
  if (word.empty() || word == "z" || word == "utc" || word == "gmt") {
    return 0.0;
  }
  const bool east = take(text, '+');
  const bool west = !east && take(text, '-');
  const auto clock = east || west ? take_clock(text) : std::nullopt;
  if (!clock || !text.empty()) {
    return std::nullopt;
  }
  return east ? -*clock : *clock;
}

}  // namespace

CfTimeAxis parse_cf_time(std::string_view units, std::string_view calendar) {
  CfTimeAxis axis;
  axis.calendar = calendar_of(calendar);
  const std::string plain = lower_ascii(trimmed(units));
  const auto since = plain.find(" since ");
  const auto days = days_in_unit(trimmed(std::string_view(plain).substr(0, since)));
  if (since == std::string::npos || !days) {
    not_understood("unit", units);
  }
  axis.days_per_unit = *days;
  std::string_view rest = trimmed(std::string_view(plain).substr(since + 7));
  const auto date = take_date(rest);
  take(rest, 't');
  rest = trimmed(rest);
  const auto clock = take_clock(rest);
  const auto zone = zone_seconds(trimmed(rest));
  if (!date || !is_cf_date(axis.calendar, *date) || !clock || !zone) {
    not_understood("unit", units);
  }
  axis.epoch = *date;
  axis.epoch_seconds = *clock + *zone;
  return axis;
}

}  // namespace tidelot
