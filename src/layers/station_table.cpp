// SPDX-License-Identifier: Apache-2.0
#include "station_table.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>
#include <stdexcept>
#include <utility>

#include "row_reader.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

/// Rows of the characteristic asked for; all where the table has one only.
void choose_characteristic(const StationWish& wish, CsvTable& table) {
  const ColumnPlaces places(table, wish.source.columns);
  const std::string wanted = lower_ascii(wish.source.characteristic);
  if (!places.has(Column::characteristic)) {
    if (!wanted.empty()) {
      throw std::invalid_argument(
          "has no column of the characteristic; take characteristic out of the plan or name it in "
          "columns");
    }
    return;
  }
  std::set<std::string> all;
  for (const CsvRow& row : table.rows) {
    all.insert(places.of(row, Column::characteristic));
  }
  if (wanted.empty() && all.size() > 1) {
    throw std::invalid_argument(
        fmt::format("holds {} characteristics; pick one with {}.characteristic: {}", all.size(),
                    wish.key, fmt::join(all, ", ")));
  }
  if (wanted.empty()) {
    return;
  }
  std::erase_if(table.rows, [&](const CsvRow& row) {
    return lower_ascii(places.of(row, Column::characteristic)) != wanted;
  });
  if (table.rows.empty()) {
    throw std::invalid_argument(fmt::format("has no row of the characteristic \"{}\"; it holds {}",
                                            wish.source.characteristic, fmt::join(all, ", ")));
  }
}

/// A Secchi depth is of the whole water column.
void note_depths(const StationWish& wish, const CsvTable& rows, Readings& readings) {
  const auto depths = unused_depths(ColumnPlaces(rows, wish.source.columns));
  if (wish.quantity != Quantity::secchi && !depths.empty()) {
    readings.notes.push_back(fmt::format(
        "columns not used: {}; if one is the sample's depth, write depth = \"{}\" in [{}.columns]",
        fmt::join(depths, ", "), depths.front(), wish.key));
  }
}

bool says_where(Column column) {
  return column == Column::lon || column == Column::lat || column == Column::station ||
         column == Column::datum;
}

/// A header that the plan names stands in the readings or, where it says where stations lie, in
/// their file.
void check_columns(const StationWish& wish, const CsvTable& rows, const CsvTable& stations) {
  for (std::size_t i = 0; i < kColumns; ++i) {
    const auto column = static_cast<Column>(i);
    const auto mapped = wish.source.columns.find(std::string(plain_name(column)));
    if (mapped == wish.source.columns.end() || has_header(rows, mapped->second) ||
        (says_where(column) && has_header(stations, mapped->second))) {
      continue;
    }
    const std::string other =
        says_where(column) && wish.source.station_file
            ? fmt::format(", that of {} {}", wish.source.station_file->written,
                          fmt::join(stations.header, ", "))
            : "";
    throw std::invalid_argument(fmt::format("has no column \"{}\" (columns.{}); its header is {}{}",
                                            mapped->second, mapped->first,
                                            fmt::join(rows.header, ", "), other));
  }
}

/// Runs a step on one file, whose name goes before what it says.
template <typename Step>
auto in_file(const StationWish& wish, const FileRef& file, Step step) {
  try {
    return step();
  } catch (const std::invalid_argument& problem) {
    throw Error(Fault::input, fmt::format("{}: {}: {}", wish.key, file.written, problem.what()));
  }
}

}  // namespace

Readings read_readings(const StationWish& wish, std::string_view table, std::string_view stations) {
  const CsvTable stands = wish.source.station_file ? in_file(wish, *wish.source.station_file,
                                                             [&] { return parse_csv(stations); })
                                                   : CsvTable{};
  CsvTable rows = in_file(wish, wish.source.file, [&] {
    CsvTable parsed = parse_csv(table);
    check_columns(wish, parsed, stands);
    return parsed;
  });
  std::map<std::string, StationPlace> places;
  if (wish.source.station_file) {
    places = in_file(wish, *wish.source.station_file,
                     [&] { return places_of(stands, wish.source.columns, wish.key); });
  }
  return in_file(wish, wish.source.file, [&] {
    choose_characteristic(wish, rows);
    RowReader reader(wish, rows, std::move(places));
    std::for_each(rows.rows.begin(), rows.rows.end(), [&](const CsvRow& row) { reader.read(row); });
    Readings out = reader.result();
    note_depths(wish, rows, out);
    if (out.all.empty()) {
      throw std::invalid_argument(fmt::format("holds no reading that counts{}{}",
                                              out.notes.empty() ? "" : ": ",
                                              fmt::join(out.notes, "; ")));
    }
    return out;
  });
}

}  // namespace tidelot
