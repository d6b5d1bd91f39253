// SPDX-License-Identifier: Apache-2.0
#include "station_date_advice.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <utility>

#include "station_day.hpp"

namespace tidelot {
namespace {

/// What it may mean, day first and month first, as ISO dates.
std::vector<std::string> meanings(std::string_view text) {
  std::vector<std::string> out;
  if (const auto date = parse_year_last(text)) {
    for (const auto& [day, month] :
         {std::pair(date->first, date->second), std::pair(date->second, date->first)}) {
      const std::string iso = fmt::format("{:04}-{:02}-{:02}", date->year, month, day);
      if (parse_stamp(iso) && (out.empty() || out.front() != iso)) {
        out.push_back(iso);
      }
    }
  }
  return out;
}

/// A date of the column that shows which number is the day; "" where there is none.
struct Orders {
  std::string day_first;
  std::string month_first;
};

Orders orders_of(const std::vector<std::string>& dates) {
  Orders out;
  for (const std::string& text : dates) {
    const auto date = parse_year_last(text);
    if (date && meanings(text).size() == 1 && date->first != date->second) {
      std::string& order = date->first > date->second ? out.day_first : out.month_first;
      order = order.empty() ? text : order;
    }
  }
  return out;
}

}  // namespace

std::string date_advice(std::string_view text, const std::vector<std::string>& dates) {
  const std::vector<std::string> may_be = meanings(text);
  if (may_be.empty()) {
    return ", YYYY/MM/DD or DD-Mon-YYYY, with or without hh:mm; write it so";
  }
  const auto [day_first, month_first] = orders_of(dates);
  if (day_first.empty() == month_first.empty()) {
    return fmt::format("; {}: write the date as {}{}",
                       day_first.empty()
                           ? "nothing tells its day from its month"
                           : "the column's dates do not agree which number is the day",
                       fmt::join(may_be, " or "), may_be.size() > 1 ? ", whichever it is" : "");
  }
  return fmt::format(
      "; the column's dates put the {} first ({}), but that is not guessed: write the "
      "date as {}",
      month_first.empty() ? "day" : "month", month_first.empty() ? day_first : month_first,
      month_first.empty() ? may_be.front() : may_be.back());
}

}  // namespace tidelot
