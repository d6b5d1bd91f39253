// SPDX-License-Identifier: Apache-2.0
// What a row measured.
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "row_reader.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

/// What other programs write where they have no value.
constexpr double kFills[] = {-9999.0, -99999.0, -999.0, -32768.0, -32767.0};

}  // namespace

/// Values per mass and per volume of water cannot stand in one table: the density differs by place.
void RowReader::check_form(const CsvRow& row, const Conversion& conversion) {
  if (!out_.all.empty() && out_.per_mass != conversion.per_mass) {
    refuse_row(row,
               "is per kilogram and other rows are per litre, or the other way round; keep one");
  }
  out_.per_mass = conversion.per_mass;
}

std::optional<double> RowReader::converted(const CsvRow& row, double value,
                                           const std::string& unit) {
  std::optional<Conversion> conversion;
  try {
    conversion = units_.of(unit, places_.of(row, Column::speciation));
  } catch (const std::invalid_argument& problem) {
    refuse_row(row, problem.what());
  }
  if (!conversion) {
    tally_.drop(fmt::format("whose unit \"{}\" is not one of {}", unit, name(wish_.quantity)), row);
    return std::nullopt;
  }
  check_form(row, *conversion);
  const double canonical = (*conversion)(value);
  const PlausibleRange range = plausible_range(wish_.quantity);
  const bool dark = wish_.quantity == Quantity::secchi && !(canonical > 0.0);
  if (!(canonical >= range.low && canonical <= range.high) || dark) {
    refuse_row(row, fmt::format("{} {} is no {} ({} to {} {} is believed); correct the unit or the "
                                "row",
                                shortest(value), unit.empty() ? units_.usual() : unit,
                                name(wish_.quantity), shortest(range.low), shortest(range.high),
                                canonical_unit(wish_.quantity)));
  }
  return canonical;
}

std::optional<double> RowReader::half_limit(const CsvRow& row, double limit,
                                            const std::string& unit) {
  const auto half = converted(row, limit / 2.0, unit);
  if (half) {
    tally_.keep("below the detection limit: half the limit is taken (common practice)", row);
  }
  return half;
}

/// A blank cell: the detection condition says why.
std::optional<double> RowReader::missing_value(const CsvRow& row) {
  const std::string why = small(row, Column::detection);
  if (why.empty() || holds(why, "not reported")) {
    tally_.drop("without a value", row);
  } else if (holds(why, "above")) {
    tally_.drop("above what could be measured", row);
  } else if (places_.of(row, Column::limit).empty()) {
    tally_.drop("below a detection limit that is not told", row);
  } else {
    const std::string& unit = places_.of(row, Column::limit_unit);
    return half_limit(row, number_in(places_, row, Column::limit, decimal_),
                      unit.empty() ? places_.of(row, Column::unit) : unit);
  }
  return std::nullopt;
}

std::optional<double> RowReader::value(const CsvRow& row) {
  const std::string& text = places_.of(row, Column::value);
  const std::string& unit = places_.of(row, Column::unit);
  if (text.empty()) {
    return missing_value(row);
  }
  if (text.front() == '>') {
    tally_.drop("above what could be measured", row);
    return std::nullopt;
  }
  if (text.front() == '<') {
    const auto blank = text.find_first_not_of(' ', 1);
    const auto limit =
        blank == std::string::npos ? std::nullopt : csv_number(text.substr(blank), decimal_);
    if (!limit) {
      refuse_row(row, fmt::format("value \"{}\" is not a number behind its <", text));
    }
    return half_limit(row, *limit, unit);
  }
  const double number = number_in(places_, row, Column::value, decimal_);
  if (std::find(std::begin(kFills), std::end(kFills), number) != std::end(kFills)) {
    tally_.drop(fmt::format("with {}, a usual mark of no data", shortest(number)), row);
    return std::nullopt;
  }
  return converted(row, number, unit);
}

}  // namespace tidelot
