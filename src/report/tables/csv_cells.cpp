// SPDX-License-Identifier: Apache-2.0
#include "report/tables/csv_cells.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string_view>

#include "report/site/site_figures.hpp"
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

/// Does a spreadsheet take a cell that begins so for a formula? Some take blanks off it before,
/// some count the wide signs, too.
bool begins_formula(std::string_view cell) {
  const std::string_view bare = cell.substr(std::min(cell.find_first_not_of(" \n"), cell.size()));
  constexpr std::string_view kSigns[] = {"=",  "+",      "-",      "@",      "\t",    "\r",
                                         "\n", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"};
  return std::any_of(std::begin(kSigns), std::end(kSigns), [&](std::string_view sign) {
    return cell.starts_with(sign) || bare.starts_with(sign);
  });
}

/// An apostrophe makes it text. After a semicolon, too: half the world's spreadsheets end a cell
/// there, and quotes that do not open a cell don't hold it together.
std::string without_formulas(std::string_view raw) {
  std::string safe;
  for (std::size_t i = 0; i < raw.size(); ++i) {
    if ((i == 0 || raw[i - 1] == ';') && begins_formula(raw.substr(i))) {
      safe += '\'';
    }
    safe += raw[i];
  }
  return safe;
}

std::string way(const std::string& name, double distance_m, double bearing_deg) {
  return fmt::format("{} {} m {}", name, fixed(distance_m, 1), fixed(bearing_deg, 1));
}

}  // namespace

std::string text(const std::string& raw) {
  const std::string safe = without_formulas(raw);
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
