// SPDX-License-Identifier: Apache-2.0
#include "station_columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <stdexcept>
#include <vector>

#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

struct Names {
  std::string_view plain;
  std::string_view portal;
  std::array<std::string_view, 3> others{};  ///< as good as plain
};

// The portal's names: the physical and chemical results of the Water Quality Exchange format, as
// public readers of that format spell them; HorizontalCoordinateReferenceSystemDatumName from
// memory.
constexpr std::array<Names, kColumns> kNames{{
    {"lon", "LongitudeMeasure", {"longitude", "long", "lng"}},
    {"lat", "LatitudeMeasure", {"latitude"}},
    {"date", "ActivityStartDate"},
    {"value", "ResultMeasureValue"},
    {"unit", "ResultMeasure/MeasureUnitCode"},
    {"depth", "ActivityDepthHeightMeasure/MeasureValue"},
    {"depth_unit", "ActivityDepthHeightMeasure/MeasureUnitCode"},
    {"level", "ActivityRelativeDepthName"},
    {"time", "ActivityStartTime/Time"},
    {"timezone", "ActivityStartTime/TimeZoneCode"},
    {"qualifier", "MeasureQualifierCode"},
    {"activity", "ActivityTypeCode"},
    {"medium", "ActivityMediaName"},
    {"status", "ResultStatusIdentifier"},
    {"station", "MonitoringLocationIdentifier", {"site"}},
    {"characteristic", "CharacteristicName"},
    {"fraction", "ResultSampleFractionText"},
    {"speciation", "MethodSpeciationName"},
    {"detection", "ResultDetectionConditionText"},
    {"limit", "DetectionQuantitationLimitMeasure/MeasureValue"},
    {"limit_unit", "DetectionQuantitationLimitMeasure/MeasureUnitCode"},
    {"datum", "HorizontalCoordinateReferenceSystemDatumName"},
}};

/// Headers are compared in small letters, '.' being as good as '/'.
std::string squeezed(std::string_view header) {
  std::string text = lower_ascii(header);
  std::replace(text.begin(), text.end(), '.', '/');
  return text;
}

std::optional<std::size_t> find(const std::vector<std::string>& headers, std::string_view name) {
  const std::string wanted = squeezed(name);
  const auto is_it = [&](const std::string& header) { return squeezed(header) == wanted; };
  const auto found = std::find_if(headers.begin(), headers.end(), is_it);
  if (found == headers.end()) {
    return std::nullopt;
  }
  if (std::find_if(found + 1, headers.end(), is_it) != headers.end()) {
    throw std::invalid_argument(fmt::format("has two columns \"{}\"; rename one", *found));
  }
  return static_cast<std::size_t>(found - headers.begin());
}

/// The plain name or another that is as good; else the portal's.
std::optional<std::size_t> find(const std::vector<std::string>& headers, Column column,
                                bool may_pick) {
  const Names& names = kNames[static_cast<std::size_t>(column)];
  std::optional<std::size_t> found = find(headers, names.plain);
  for (const std::string_view other : names.others) {
    const auto place = other.empty() ? std::nullopt : find(headers, other);
    if (found && place) {
      throw std::invalid_argument(
          fmt::format("has two columns that may be the {}, {} and {}; rename one{}",
                      spoken_name(column), headers[*found], headers[*place],
                      may_pick ? fmt::format(", or pick one (columns.{})", names.plain) : ""));
    }
    found = place ? place : found;
  }
  return found ? found : find(headers, names.portal);
}

}  // namespace

std::string_view plain_name(Column column) {
  return kNames[static_cast<std::size_t>(column)].plain;
}

std::string_view spoken_name(Column column) {
  return column == Column::lon   ? "longitude"
         : column == Column::lat ? "latitude"
                                 : plain_name(column);
}

bool has_header(const CsvTable& table, std::string_view header) {
  return find(table.header, header).has_value();
}

ColumnPlaces::ColumnPlaces(const CsvTable& table, const std::map<std::string, std::string>& mapping,
                           bool may_pick) {
  for (std::size_t i = 0; i < kColumns; ++i) {
    const auto column = static_cast<Column>(i);
    const auto mapped = mapping.find(std::string(plain_name(column)));
    if (mapped != mapping.end()) {
      places_[i] = find(table.header, mapped->second);
    }
    if (mapped == mapping.end() || (!places_[i] && column == Column::station)) {
      places_[i] = find(table.header, column, may_pick);
    }
    headers_[i] = places_[i] ? table.header[*places_[i]] : "";
  }
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    if (std::find(places_.begin(), places_.end(), i) == places_.end()) {
      unused_.push_back(table.header[i]);
    }
  }
}

const std::string& ColumnPlaces::of(const CsvRow& row, Column column) const {
  static const std::string kNothing;
  return place(column) ? row.cells[*place(column)] : kNothing;
}

std::string ColumnPlaces::text() const {
  std::string out;
  for (std::size_t i = 0; i < kColumns; ++i) {
    if (places_[i]) {
      out += fmt::format("{}{}", out.empty() ? "" : ", ", kNames[i].plain);
      out += lower_ascii(headers_[i]) == kNames[i].plain ? "" : " from " + headers_[i];
    }
  }
  return out;
}

std::vector<std::string> unused_depths(const ColumnPlaces& places) {
  std::vector<std::string> out;
  if (!places.has(Column::depth)) {
    std::copy_if(places.unused().begin(), places.unused().end(), std::back_inserter(out),
                 [](const std::string& header) {
                   return lower_ascii(header).find("depth") != std::string::npos;
                 });
  }
  return out;
}

}  // namespace tidelot
