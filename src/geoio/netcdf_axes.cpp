// SPDX-License-Identifier: Apache-2.0
#include "netcdf_axes.hpp"

#include <algorithm>
#include <charconv>
#include <optional>

#include "gdal_support.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

std::optional<double> number(const std::string& text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end != text.data() ? std::optional(value) : std::nullopt;
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
