// SPDX-License-Identifier: Apache-2.0
// One row of a table of readings after the other.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "station_places.hpp"
#include "station_table.hpp"
#include "station_units.hpp"
#include "tally.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {

/// Reads rows of a table (which it keeps no copy of), leaves out what does not count, and keeps a
/// tally of both. Every function throws std::invalid_argument "row 7: ..." for what cannot be read.
class RowReader {
 public:
  RowReader(const StationWish& wish, const CsvTable& table,
            std::map<std::string, StationPlace> stations);

  void read(const CsvRow& row);
  [[nodiscard]] Readings result();

 private:
  [[nodiscard]] std::string small(const CsvRow& row, Column column) const {
    return lower_ascii(places_.of(row, column));
  }
  [[nodiscard]] bool is_wanted(const CsvRow& row);
  [[nodiscard]] bool is_surface(const CsvRow& row);
  [[nodiscard]] Day day_of(const CsvRow& row, double lon);
  [[nodiscard]] std::optional<StationPlace> place(const CsvRow& row);
  [[nodiscard]] std::optional<double> value(const CsvRow& row);
  [[nodiscard]] std::optional<double> missing_value(const CsvRow& row);
  [[nodiscard]] std::optional<double> half_limit(const CsvRow& row, double limit,
                                                 const std::string& unit);
  [[nodiscard]] std::optional<double> converted(const CsvRow& row, double value,
                                                const std::string& unit);
  void check_form(const CsvRow& row, const Conversion& conversion);

  const StationWish& wish_;
  const CsvTable& table_;
  ColumnPlaces places_;
  std::map<std::string, StationPlace> stations_;
  char separator_;
  char decimal_;
  RowUnits units_;
  Tally tally_;
  Readings out_;
  std::set<std::string> fractions_;
  std::set<std::string> qualifiers_;
};

[[nodiscard]] inline bool holds(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

}  // namespace tidelot
