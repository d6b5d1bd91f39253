// SPDX-License-Identifier: Apache-2.0
// Which column of a table of readings holds what.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/core/csv.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

enum class Column {
  lon,
  lat,
  date,
  value,
  unit,
  depth,
  depth_unit,
  level,  ///< "Surface", "Bottom"
  time,
  timezone,
  qualifier,
  activity,  ///< sample, or a blank, a duplicate, a spike
  medium,    ///< "Water", "Sediment"
  status,    ///< "Final", "Rejected"
  station,
  characteristic,
  fraction,    ///< "Dissolved", "Total"
  speciation,  ///< "as N"
  detection,   ///< why there is no value
  limit,
  limit_unit,
  datum,  ///< of the position
};
inline constexpr std::size_t kColumns = static_cast<std::size_t>(Column::datum) + 1;

/// "lon", "lat", ...: the plan's names, which a plain table has for its headers, too.
[[nodiscard]] std::string_view plain_name(Column column);

/// "longitude", "latitude", else the plain name: for sentences.
[[nodiscard]] std::string_view spoken_name(Column column);

/// Has the table a column of this header? Case does not matter, '.' is as good as '/'.
[[nodiscard]] bool has_header(const CsvTable& table, std::string_view header);

/// A table and the places of its columns.
class ColumnPlaces {
 public:
  /// The plan's own mapping first; else the plain name or one as good (longitude, long, lng,
  /// latitude, site); else the name in downloads of water-quality portals (one result a row; parts
  /// joined by / or .). Case does not matter. A mapped header that the table has not leaves the
  /// column out (it may stand in the other table); only the station, by which two tables are
  /// joined, is then looked for under its usual names. Throws std::invalid_argument for a header
  /// that stands twice, and two names of one column. may_pick: the plan can map columns of this
  /// table, and is told so.
  ColumnPlaces(const CsvTable& table, const std::map<std::string, std::string>& mapping,
               bool may_pick = true);

  [[nodiscard]] bool has(Column column) const { return place(column).has_value(); }
  /// "" where the table has no such column.
  [[nodiscard]] const std::string& of(const CsvRow& row, Column column) const;
  /// As the table writes it; "" where it has no such column.
  [[nodiscard]] const std::string& header(Column column) const {
    return headers_[static_cast<std::size_t>(column)];
  }
  /// "lon, lat, date, value (from ResultMeasureValue)": what was recognised.
  [[nodiscard]] std::string text() const;
  /// Headers of columns that were not recognised, as written.
  [[nodiscard]] const std::vector<std::string>& unused() const { return unused_; }

 private:
  [[nodiscard]] const std::optional<std::size_t>& place(Column column) const {
    return places_[static_cast<std::size_t>(column)];
  }
  std::array<std::optional<std::size_t>, kColumns> places_;
  std::array<std::string, kColumns> headers_;
  std::vector<std::string> unused_;
};

/// Headers that say depth and are not used, of a table without a column of the sample's depth: its
/// rows would all pass for ones from the surface.
[[nodiscard]] std::vector<std::string> unused_depths(const ColumnPlaces& places);

}  // namespace tidelot
