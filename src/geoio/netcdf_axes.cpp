// SPDX-License-Identifier: Apache-2.0
#include "netcdf_axes.hpp"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <set>
#include <stdexcept>

#include "gdal_support.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/layers/cf_time.hpp"

namespace tidelot::geoio {
namespace {

std::optional<double> number(const std::string& text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end != text.data() ? std::optional(value) : std::nullopt;
}

/// "{time,depth}" -> time, depth: the dimensions besides rows and columns.
std::vector<std::string> band_dimensions(GDALDataset& dataset) {
  std::string text = metadata(dataset, "NETCDF_DIM_EXTRA");
  std::erase_if(text, [](char c) { return c == '{' || c == '}'; });
  const CPLStringList names(CSLTokenizeString2(text.c_str(), ",", CSLT_STRIPLEADSPACES));
  return {names.List(), names.List() + names.Count()};
}

/// Values of a dimension, one a band, as text.
std::vector<std::string> band_values(GDALDataset& dataset, const std::string& dimension) {
  std::vector<std::string> values;
  for (int band = 1; band <= dataset.GetRasterCount(); ++band) {
    values.push_back(metadata(*dataset.GetRasterBand(band), "NETCDF_DIM_" + dimension));
  }
  return values;
}

bool is_named(const std::string& dimension, const char* word) {
  return CPLString(dimension).ifind(word) != std::string::npos;
}

bool varies(const std::vector<std::string>& values) {
  return std::set<std::string>(values.begin(), values.end()).size() > 1;
}

void dates_by_axis(const InputFile& input, const std::vector<std::string>& values,
                   const CfTimeAxis& axis, RasterInfo& info) {
  std::string first;
  std::string last;
  for (const std::string& text : values) {
    const auto value = number(text);
    if (!value) {
      throw input.error(
          "its time axis has no readable values; state the months with {month} files");
    }
    const CfDate date = cf_date(axis, *value);
    info.month_of_band.push_back(date.month - 1);
    first = first.empty() ? to_text(date) : first;
    last = to_text(date);
  }
  info.times = first + " to " + last;
}

/// An axis of month numbers, 1..12.
void months_by_number(const std::vector<std::string>& values, RasterInfo& info) {
  std::vector<int> months;
  for (const std::string& text : values) {
    const double month = number(text).value_or(0.0);
    if (month < 1.0 || month > 12.0 || month != static_cast<int>(month)) {
      return;
    }
    months.push_back(static_cast<int>(month) - 1);
  }
  info.month_of_band = std::move(months);
}

}  // namespace

std::string metadata(GDALMajorObject& object, const std::string& item) {
  const char* text = object.GetMetadataItem(item.c_str());
  return text != nullptr ? text : "";
}

bool has_degree_axes(GDALDataset& dataset) {
  bool north = false;
  bool east = false;
  for (char** item = dataset.GetMetadata(); item != nullptr && *item != nullptr; ++item) {
    const std::string text(*item);
    const auto equals = text.find("#units=degree");
    if (equals == std::string::npos) {
      continue;
    }
    const std::string unit = text.substr(equals + 7);
    const auto is_one_of = [&](std::initializer_list<const char*> names) {
      return std::any_of(names.begin(), names.end(), [&](const char* n) { return unit == n; });
    };
    north = north || is_one_of({"degrees_north", "degree_north", "degrees_N", "degree_N"});
    east = east || is_one_of({"degrees_east", "degree_east", "degrees_E", "degree_E"});
  }
  return north && east;
}

std::vector<double> fill_values(GDALDataset& dataset, const std::string& variable) {
  std::vector<double> values;
  for (const char* attribute : {"#missing_value", "#_FillValue"}) {
    if (const auto value = number(metadata(dataset, variable + attribute))) {
      values.push_back(*value);
    }
  }
  return values;
}

void read_months(const InputFile& input, GDALDataset& dataset, RasterInfo& info) {
  for (const std::string& dimension : band_dimensions(dataset)) {
    const auto values = band_values(dataset, dimension);
    if (!varies(values)) {
      continue;
    }
    const std::string units = metadata(dataset, dimension + "#units");
    if (units.find(" since ") != std::string::npos) {
      try {
        dates_by_axis(input, values,
                      parse_cf_time(units, metadata(dataset, dimension + "#calendar")), info);
      } catch (const std::invalid_argument& e) {
        throw input.error(one_line(e.what()));
      }
    } else if (is_named(dimension, "month") || is_named(dimension, "time")) {
      months_by_number(values, info);
    } else {
      throw input.error(
          fmt::format("its bands run along \"{}\", which is not time; make a file of "
                      "one level (the surface)",
                      one_line(dimension)));
    }
  }
}

std::string positive_of(const std::string& attribute, const std::string& standard_name) {
  const std::string word = lower_ascii(attribute);
  if (word == "up" || word == "down") {
    return word;
  }
  if (standard_name.starts_with("sea_floor_depth") || standard_name == "depth") {
    return "down";
  }
  const bool up = standard_name.ends_with("altitude") || standard_name.starts_with("height_above");
  return up ? "up" : "";
}

}  // namespace tidelot::geoio
