// SPDX-License-Identifier: Apache-2.0
#include "series_file.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "md_array.hpp"

namespace tidelot::geoio {
namespace {

constexpr std::size_t kMostSteps = 10'000'000;  // hours of a thousand years

/// The array's time axis, if it has one.
ArrayHandle time_axis_of(const GDALMDArray& array, const MdFile& file) {
  for (const auto& dimension : array.GetDimensions()) {
    const ArrayHandle axis = file.find(dimension->GetName());
    if (axis != nullptr && attribute(*axis, "units").find(" since ") != std::string::npos) {
      return axis;
    }
  }
  return nullptr;
}

void require_one_place(const GDALMDArray& array, const std::string& name, std::size_t steps,
                       const InputFile& input) {
  std::size_t values = 1;
  for (const auto& dimension : array.GetDimensions()) {
    values *= std::max<std::size_t>(dimension->GetSize(), 1);
  }
  if (values != steps) {
    throw input.error(
        fmt::format("{} holds values at {} places; cut out the one that stands for the bay", name,
                    steps == 0 ? 0 : values / steps));
  }
}

void take_axis(const GDALMDArray& axis, const InputFile& input, TimeSeries& series) {
  std::vector<double> times = numbers(axis, kMostSteps);
  if (times.empty()) {
    throw input.error("its time axis is empty, too long, or no numbers");
  }
  if (!series.times.empty() && series.times != times) {
    throw input.error("its winds lie along different time axes");
  }
  series.times = std::move(times);
  series.time_unit = attribute(axis, "units");
  series.calendar = attribute(axis, "calendar");
}

}  // namespace

TimeSeries read_series_file(const FileRef& file, const std::string& key,
                            std::span<const std::string_view> standard_names) {
  const InputFile input = find_input(file, key, false);
  const MdFile opened(input);
  TimeSeries series;
  for (const std::string& name : opened.names()) {
    const ArrayHandle array = opened.find(name);
    const std::string standard = array != nullptr ? attribute(*array, "standard_name") : "";
    if (std::find(standard_names.begin(), standard_names.end(), standard) == standard_names.end()) {
      continue;
    }
    const ArrayHandle axis = time_axis_of(*array, opened);
    if (axis == nullptr) {
      throw input.error(name + " has no time axis");
    }
    take_axis(*axis, input, series);
    require_one_place(*array, name, series.times.size(), input);
    std::vector<double> values = numbers(*array, kMostSteps);
    if (values.size() != series.times.size()) {
      throw input.error(name + " cannot be read as numbers");
    }
    series.variables.push_back({standard, attribute(*array, "units"), std::move(values)});
  }
  return series;
}

}  // namespace tidelot::geoio
