// SPDX-License-Identifier: Apache-2.0
#include "station_places.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "tidelot/core/text.hpp"

namespace tidelot {

void refuse_row(const CsvRow& row, const std::string& what) {
  throw std::invalid_argument(fmt::format("row {}: {}", row.number, what));
}

char decimal_mark(const CsvTable& table, const ColumnPlaces& places) {
  constexpr std::array kNumbers{Column::lon, Column::lat, Column::value, Column::depth,
                                Column::limit};
  const bool commas = table.separator != ',' &&
                      std::any_of(table.rows.begin(), table.rows.end(), [&](const CsvRow& row) {
                        return std::any_of(kNumbers.begin(), kNumbers.end(), [&](Column column) {
                          return places.of(row, column).find(',') != std::string::npos;
                        });
                      });
  return commas ? ',' : '.';
}

double number_in(const ColumnPlaces& places, const CsvRow& row, Column column, char decimal) {
  const std::string& cell = places.of(row, column);
  const auto number = csv_number(cell, decimal);
  if (!number) {
    const bool point = decimal == ',' && cell.find('.') != std::string::npos;
    refuse_row(row, fmt::format("{} \"{}\" is not a number{}", plain_name(column), cell,
                                point ? "; other rows have decimal commas, write all alike" : ""));
  }
  return *number;
}

StationPlace place_of(const ColumnPlaces& places, const CsvRow& row, char decimal) {
  StationPlace place;
  place.at = {number_in(places, row, Column::lon, decimal),
              number_in(places, row, Column::lat, decimal)};
  place.datum = places.of(row, Column::datum);
  if (!(std::abs(place.at.lat) <= 90.0)) {
    refuse_row(row,
               fmt::format("latitude {} is not within -90 to 90{}", shortest(place.at.lat),
                           std::abs(place.at.lat) <= 180.0 ? "; are lon and lat swapped?"
                                                           : "; give decimal degrees, WGS 84"));
  }
  if (!(std::abs(place.at.lon) <= 180.0)) {
    refuse_row(row, fmt::format("longitude {} is not within -180 to 180; give decimal degrees, WGS "
                                "84",
                                shortest(place.at.lon)));
  }
  return place;
}

void refuse_missing(const CsvTable& table, Column column, const std::string& key) {
  throw std::invalid_argument(
      fmt::format("has no column for the {}; write {} = \"...\" in [{}.columns]; its header is {}",
                  spoken_name(column), plain_name(column), key, fmt::join(table.header, ", ")));
}

std::map<std::string, StationPlace> places_of(const CsvTable& table,
                                              std::map<std::string, std::string> mapping,
                                              const std::string& key) {
  std::erase_if(mapping, [&](const auto& mapped) { return !has_header(table, mapped.second); });
  const ColumnPlaces places(table, mapping);
  for (const Column column : {Column::station, Column::lon, Column::lat}) {
    if (!places.has(column)) {
      refuse_missing(table, column, key);
    }
  }
  const char decimal = decimal_mark(table, places);
  std::map<std::string, StationPlace> out;
  for (const CsvRow& row : table.rows) {
    const StationPlace place = place_of(places, row, decimal);
    const auto [known, added] = out.emplace(places.of(row, Column::station), place);
    if (!added && known->second.at != place.at) {
      refuse_row(row, fmt::format("station {} stands at a second place; keep one", known->first));
    }
  }
  return out;
}

}  // namespace tidelot
