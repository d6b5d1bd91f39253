// SPDX-License-Identifier: Apache-2.0
#include "report/csv_cells.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string_view>

#include "report/site_figures.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot::cells {
namespace {

/// What each of a list gives, with a separator between.
template <typename List, typename Word>
std::string each(const List& list, std::string_view between, const Word& word) {
  std::string all;
  for (const auto& one : list) {
    all += std::string(all.empty() ? "" : between) + word(one);
  }
  return all;
}

std::string way(const std::string& name, double distance_m, double bearing_deg) {
  return fmt::format("{} {} m {}", name, fixed(distance_m, 1), fixed(bearing_deg, 1));
}

}  // namespace

std::string text(const std::string& raw) {
  constexpr std::string_view kFormulaStarts = "=+-@\t\r";
  const std::size_t first = std::min(raw.find_first_not_of(" \n"), raw.size());
  const bool risky =
      first < raw.size() && kFormulaStarts.find(raw[first]) != std::string_view::npos;
  const std::string safe = risky ? "'" + raw : raw;
  if (safe.find_first_of(",\"\r\n") == std::string::npos) {
    return safe;
  }
  std::string quoted = "\"";
  for (const char c : safe) {
    quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  }
  return quoted + '"';
}

std::string number(double value, int decimals) {
  return value == value ? fixed(value, decimals) : "";
}

std::string day(DayOfYear day) { return day > 0 ? format_month_day(day) : ""; }

std::string positions(const std::array<LonLat, 4>& corners) {
  return each(corners, ";",
              [](LonLat p) { return fmt::format("{} {}", fixed(p.lon, 6), fixed(p.lat, 6)); });
}

std::string utm(const Printed& printed) {
  return printed.utm_zone.empty() ? "" : each(printed.utm_corners, ";", [](XY p) {
    return fmt::format("{} {}", fixed(p.x, 2), fixed(p.y, 2));
  });
}

std::string side_lengths(const Printed& printed) {
  return each(printed.sides, ";", [](const Printed::Side& s) { return fixed(s.length_m, 2); });
}

std::string side_bearings(const Printed& printed) {
  return each(printed.sides, ";", [](const Printed::Side& s) { return fixed(s.bearing_deg, 4); });
}

std::string marks(const Site& site, const Plan& plan) {
  std::string all;
  const std::size_t count = std::min(site.marks.size(), plan.report.marks.size());
  for (std::size_t i = 0; i < count; ++i) {
    all += (i == 0 ? "" : "; ") +
           way(plan.report.marks[i].name, site.marks[i].distance_m, site.marks[i].bearing_deg);
  }
  return all;
}

std::string rules(const Site& site, const Plan& plan) {
  return each(site.rules, "; ", [&](const RuleDistance& rule) {
    return way(page::rule_name(rule, plan), rule.distance_m, rule.bearing_deg);
  });
}

std::string calendar(const Site& site) {
  return each(harvest_calendar(site), ";", [](const CalendarHaul& haul) {
    return fmt::format("{} {}", format_month_day(haul.day), fixed(haul.fresh_t, 4));
  });
}

std::string joined(const std::vector<std::string>& phrases) {
  return fmt::format("{}", fmt::join(phrases, "; "));
}

}  // namespace tidelot::cells
