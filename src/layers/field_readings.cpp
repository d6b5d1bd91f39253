// SPDX-License-Identifier: Apache-2.0
#include "field_readings.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>

#include "row_reader.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {
namespace {

struct Word {
  std::string_view word;
  Quantity quantity;
  FieldProperty property;
};
constexpr std::array<Word, 7> kWords{{
    {"temperature", Quantity::temperature, FieldProperty::temperature},
    {"salinity", Quantity::salinity, FieldProperty::salinity},
    {"kd", Quantity::attenuation, FieldProperty::kd},
    {"secchi", Quantity::secchi, FieldProperty::kd},
    {"nitrogen", Quantity::nitrogen, FieldProperty::nitrogen},
    {"current", Quantity::current, FieldProperty::current},
    {"depth_low_water", Quantity::depth, FieldProperty::depth_low_water},
}};
constexpr std::array<std::string_view, 5> kNeeded{"lon", "lat", "date", "property", "value"};

/// The property stands where stations have their characteristic.
std::map<std::string, std::string> columns() { return {{"characteristic", "property"}}; }

void check_header(const CsvTable& table) {
  for (const std::string_view needed : kNeeded) {
    const bool there =
        std::any_of(table.header.begin(), table.header.end(),
                    [&](const std::string& header) { return lower_ascii(header) == needed; });
    if (!there) {
      throw std::invalid_argument(fmt::format(
          "has no column {}; its header is {}; it needs {}, and may have unit and visit", needed,
          fmt::join(table.header, ", "), fmt::join(kNeeded, ", ")));
    }
  }
}

const Word& word_of(const ColumnPlaces& places, const CsvRow& row) {
  const std::string& written = places.of(row, Column::characteristic);
  const std::string wanted = lower_ascii(written);
  const auto found = std::find_if(kWords.begin(), kWords.end(),
                                  [&](const Word& word) { return word.word == wanted; });
  if (found == kWords.end()) {
    std::vector<std::string_view> all;
    all.reserve(std::size(kWords));
    for (const Word& word : kWords) {
      all.push_back(word.word);
    }
    refuse_row(row, fmt::format("property \"{}\" is not one of {}", written, fmt::join(all, ", ")));
  }
  return *found;
}

/// There is no plan's unit to fall back on: nitrogen has to say its own.
void check_unit(const ColumnPlaces& places, const CsvRow& row, Quantity quantity) {
  if (quantity != Quantity::nitrogen || places.of(row, Column::value).empty()) {
    return;
  }
  const std::string& unit = places.of(row, Column::unit);
  if (unit.empty()) {
    refuse_row(row, "nitrogen has no usual unit; write it in the column unit: umol/L, mg/L as N");
  }
  if (says_no_form(quantity, unit) && places.of(row, Column::speciation).empty()) {
    refuse_row(row, fmt::format("the unit \"{0}\" does not say of what; write \"{0} as N\", or as "
                                "NO3, as NH4",
                                unit));
  }
}

void check_datum(const ColumnPlaces& places, const CsvRow& row, Tally& tally) {
  const std::string datum = lower_ascii(places.of(row, Column::datum));
  if (!datum.empty() && datum != "wgs84" && datum != "wgs 84") {
    tally.keep("whose datum is not WGS 84: taken as WGS 84", row);
  }
}

/// The rows of one word, read as those of stations are.
void add_rows(const FieldPlan& plan, const LightPlan& light, const Word& word, const CsvTable& rows,
              FieldTable& out) {
  StationWish wish{"field", {}, word.quantity, ""};
  wish.source.file = plan.readings;
  wish.source.columns = columns();
  RowReader reader(wish, rows, {});
  for (const CsvRow& row : rows.rows) {
    reader.read(row);
  }
  const Readings readings = reader.result();
  for (const Reading& reading : readings.all) {
    const double value = word.quantity == Quantity::secchi
                             ? kd_from_secchi(reading.value, light.secchi)
                             : reading.value;
    out.all.push_back({word.property, reading.place, reading.day, value, readings.per_mass});
  }
  for (const std::string& note : readings.notes) {
    out.notes.push_back(fmt::format("{}: {}", word.word, note));
  }
  if (word.quantity == Quantity::secchi && !readings.all.empty()) {
    out.notes.emplace_back("secchi: becomes kd by [water.light] secchi_relation");
  }
}

FieldTable read(const FieldPlan& plan, const LightPlan& light, std::string_view text) {
  const CsvTable table = parse_csv(text);
  check_header(table);
  if (table.rows.empty()) {
    throw std::invalid_argument("holds no reading below its header; add one, or take [field] out");
  }
  const ColumnPlaces places(table, columns(), false);
  std::map<std::string_view, CsvTable> apart;
  Tally tally;
  for (const CsvRow& row : table.rows) {
    const Word& word = word_of(places, row);
    check_unit(places, row, word.quantity);
    check_datum(places, row, tally);
    CsvTable& own = apart[word.word];
    own.separator = table.separator;
    own.header = table.header;
    own.rows.push_back(row);
  }
  FieldTable out;
  out.notes = tally.lines();
  if (const auto depths = unused_depths(places); !depths.empty()) {
    out.notes.push_back(
        fmt::format("columns not used: {}; if one is the sample's depth, rename it depth",
                    fmt::join(depths, ", ")));
  }
  for (const Word& word : kWords) {
    if (apart.contains(word.word)) {
      add_rows(plan, light, word, apart[word.word], out);
    }
  }
  return out;
}

}  // namespace

std::string name(FieldProperty property) {
  return std::string(std::find_if(kWords.begin(), kWords.end(), [&](const Word& word) {
                       return word.property == property;
                     })->word);
}

Quantity quantity(FieldProperty property) {
  return std::find_if(kWords.begin(), kWords.end(),
                      [&](const Word& word) { return word.property == property; })
      ->quantity;
}

FieldTable read_field_table(const FieldPlan& plan, const LightPlan& light, std::string_view text) {
  try {
    return read(plan, light, text);
  } catch (const std::invalid_argument& problem) {
    throw Error(Fault::input,
                fmt::format("field.readings: {}: {}", plan.readings.written, problem.what()));
  }
}

}  // namespace tidelot
