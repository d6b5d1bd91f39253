// SPDX-License-Identifier: Apache-2.0
// Where stations lie: positions in the table itself, or in a file of stations that it is joined to.
#pragma once

#include <map>
#include <string>

#include "station_columns.hpp"
#include "tidelot/core/grid.hpp"

namespace tidelot {

struct StationPlace {
  LonLat at;
  std::string datum;  ///< as written
};

/// The position in a row's lon and lat. Throws std::invalid_argument "row 7: ...".
[[nodiscard]] StationPlace place_of(const ColumnPlaces& places, const CsvRow& row, char decimal);

/// Station -> position, of a file of stations. mapping: that of the readings; here it counts where
/// the table has its header. key names the plan's table, for messages. Throws std::invalid_argument
/// where a column is missing or one station stands at two places.
[[nodiscard]] std::map<std::string, StationPlace> places_of(
    const CsvTable& table, std::map<std::string, std::string> mapping, const std::string& key);

/// Throws std::invalid_argument "has no column for the longitude; write lon = ...".
[[noreturn]] void refuse_missing(const CsvTable& table, Column column, const std::string& key);

/// ',' where a table separated by ; or tabs writes its numbers so, else '.'.
[[nodiscard]] char decimal_mark(const CsvTable& table, const ColumnPlaces& places);

/// The number of a cell. Throws std::invalid_argument "row 7: value "x" is not a number".
[[nodiscard]] double number_in(const ColumnPlaces& places, const CsvRow& row, Column column,
                               char decimal);

/// Throws std::invalid_argument "row 7: what".
[[noreturn]] void refuse_row(const CsvRow& row, const std::string& what);

}  // namespace tidelot
