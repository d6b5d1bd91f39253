// SPDX-License-Identifier: Apache-2.0
#include "band_axes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <utility>

#include "gdal_support.hpp"
#include "level_axis.hpp"
#include "md_array.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/layers/cf_time.hpp"

namespace tidelot::geoio {
namespace {

constexpr std::size_t kMostValues = 65536;
constexpr std::size_t kMostPixels = std::size_t{1} << 24;  // of a curvilinear grid

/// A dimension and the variable that holds its values.
struct Axis {
  std::string name;
  std::size_t size = 0;
  ArrayHandle values;  ///< nullptr where the file has none

  [[nodiscard]] std::string text(const std::string& attribute_name) const {
    return values != nullptr ? attribute(*values, attribute_name) : "";
  }
  [[nodiscard]] bool is_named(std::string_view word) const {
    return lower_ascii(name).find(word) != std::string::npos;
  }
  [[nodiscard]] bool counts_from_a_date() const {
    return text("units").find(" since ") != std::string::npos;
  }
  [[nodiscard]] bool is_time() const {
    return counts_from_a_date() || is_named("month") || is_named("time") || text("axis") == "T";
  }
};

std::vector<double> values_of(const InputFile& input, const Axis& axis) {
  std::vector<double> values = numbers(*axis.values, kMostValues);
  const bool good =
      values.size() == axis.size &&
      std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); });
  if (!good) {
    throw input.error(
        fmt::format("its axis \"{}\" has no readable values", foreign_text(axis.name)));
  }
  return values;
}

/// First and last of each step; empty where the axis has no bounds.
std::vector<std::pair<double, double>> bounds_of(const MdFile& file, const Axis& axis,
                                                 const char* attribute_name) {
  const ArrayHandle array = file.find(axis.text(attribute_name));
  const std::vector<double> flat =
      array != nullptr ? numbers(*array, 2 * kMostValues) : std::vector<double>{};
  std::vector<std::pair<double, double>> bounds;
  if (flat.size() == 2 * axis.size) {
    for (std::size_t i = 0; i < axis.size; ++i) {
      bounds.emplace_back(flat[2 * i], flat[2 * i + 1]);
    }
  }
  return bounds;
}

TimeStep step_at(const CfTimeAxis& axis, const CfDate& date) {
  return {date.year, date.month - 1, common_day(axis.calendar, date),
          cf_day_number(axis.calendar, date)};
}

/// Years of a climatology from the bounds of its steps: from the first to the last that it means
/// over.
std::string climatology_years(const CfTimeAxis& axis,
                              const std::vector<std::pair<double, double>>& bounds) {
  if (bounds.empty()) {
    return "";
  }
  const auto first = std::min_element(bounds.begin(), bounds.end())->first;
  const auto last =
      std::max_element(bounds.begin(), bounds.end(), [](const auto& a, const auto& b) {
        return a.second < b.second;
      })->second;
  const double day = axis.days_per_unit > 0.0 ? 1.0 / axis.days_per_unit : 0.0;
  return fmt::format("{} to {}", cf_date(axis, first).year, cf_date(axis, last - day).year);
}

void read_dates(const InputFile& input, const MdFile& file, const Axis& axis, RasterInfo& info) {
  const CfTimeAxis time = parse_cf_time(axis.text("units"), axis.text("calendar"));
  std::vector<double> values = values_of(input, axis);
  info.climatology = !axis.text("climatology").empty();
  if (info.climatology) {
    info.years = climatology_years(time, bounds_of(file, axis, "climatology"));
  } else if (time.days_per_unit > 0.0) {
    const auto bounds = bounds_of(file, axis, "bounds");
    for (std::size_t i = 0; i < bounds.size(); ++i) {
      const auto [first, last] = bounds[i];
      values[i] = last > first ? (first + last) / 2.0 : values[i];
    }
  }
  bool made_up = true;
  for (const double value : values) {
    const CfDate date = cf_date(time, value);
    info.steps.push_back(step_at(time, date));
    made_up = made_up && (date.year == 0 || date.year == 1);
    info.times = info.times.empty() ? to_text(date) : info.times;
  }
  info.climatology = info.climatology || made_up;
  info.times += " to " + to_text(cf_date(time, values.back()));
}

/// An axis of month numbers, 1..12, is that of a mean year; any other says nothing.
void read_month_numbers(const InputFile& input, const Axis& axis, RasterInfo& info) {
  if (axis.values == nullptr) {
    return;
  }
  std::vector<TimeStep> steps;
  for (const double value : values_of(input, axis)) {
    if (value < 1.0 || value > 12.0 || value != std::floor(value)) {
      return;
    }
    const int month = static_cast<int>(value) - 1;
    const int middle = static_cast<int>(middle_of_month(month)) + 1;
    steps.push_back({0, month, middle, middle});
  }
  info.steps = std::move(steps);
  info.climatology = true;
}

void read_time(const InputFile& input, const MdFile& file, const Axis& axis, RasterInfo& info) {
  if (!info.steps.empty()) {
    throw input.error("has two axes of time; make a file with one");
  }
  if (!axis.counts_from_a_date()) {
    read_month_numbers(input, axis, info);
    return;
  }
  try {
    read_dates(input, file, axis, info);
  } catch (const std::invalid_argument& e) {
    throw input.error(foreign_text(e.what()));
  }
}

LevelWords words_of(const Axis& axis) {
  return {foreign_text(axis.name), axis.text("units"),         axis.text("positive"),
          axis.text("axis"),       axis.text("standard_name"), !axis.text("formula_terms").empty()};
}

void read_levels(const InputFile& input, const Axis& axis, RasterInfo& info) {
  const LevelWords words = words_of(axis);
  if (const std::string trouble = trouble_with(words); !trouble.empty()) {
    throw input.error(trouble);
  }
  const LevelUnit unit = *level_unit(words);
  for (const double value : values_of(input, axis)) {
    info.levels_m.push_back(value * unit.metres);
  }
  info.levels_basis = unit.assumed;
}

/// Rows and columns are the last two dimensions of a variable, whatever they are.
void check_rows_and_columns(const InputFile& input, const Axis& rows, const Axis& columns) {
  const std::string unit = lower_ascii(columns.text("units"));
  if (rows.counts_from_a_date() || columns.counts_from_a_date() || unit.starts_with("degrees_n") ||
      unit.starts_with("degree_n")) {
    throw input.error(fmt::format(
        "its last two dimensions are {} and {}, not rows and columns; put them in the order time, "
        "depth, latitude, longitude (ncpdq -a does)",
        foreign_text(rows.name), foreign_text(columns.name)));
  }
}

std::vector<Axis> axes_of(const GDALMDArray& array) {
  std::vector<Axis> axes;
  for (const auto& dimension : array.GetDimensions()) {
    axes.push_back({dimension->GetName(), dimension->GetSize(), dimension->GetIndexingVariable()});
  }
  return axes;
}

/// A single level that does not say where it lies is taken as it is.
bool is_vertical(const Axis& axis) {
  const LevelWords words = words_of(axis);
  return is_vertical_axis(words) && (axis.size > 1 || trouble_with(words).empty());
}

}  // namespace

void read_band_axes(const InputFile& input, const std::string& variable, RasterInfo& info) {
  const MdFile file(input);
  const ArrayHandle array = file.find(variable);
  if (array == nullptr || array->GetDimensionCount() < 2) {
    return;
  }
  const std::vector<Axis> axes = axes_of(*array);
  check_rows_and_columns(input, axes[axes.size() - 2], axes.back());
  std::size_t bands = 1;
  for (std::size_t i = 0; i + 2 < axes.size(); ++i) {
    const Axis& axis = axes[i];
    bands *= axis.size;
    if (axis.is_time()) {
      info.steps_fastest = !info.levels_m.empty();
      read_time(input, file, axis, info);
    } else if (is_vertical(axis)) {
      read_levels(input, axis, info);
    } else if (axis.size > 1) {
      throw input.error(fmt::format(
          "its bands run along \"{}\", which is neither time nor depth; make a file of one of them",
          foreign_text(axis.name)));
    }
  }
  if (bands != static_cast<std::size_t>(info.bands)) {
    throw input.error(fmt::format(
        "holds {} steps times levels, and {} of them can be read; take daily or monthly "
        "means, or one level, first",
        bands, info.bands));
  }
}

void read_curves(const InputFile& input, const std::string& lon, const std::string& lat,
                 RasterInfo& info) {
  const MdFile file(input);
  const auto turned = [&](const std::string& name) {
    const ArrayHandle array = file.find(name);
    const auto cols = static_cast<std::size_t>(info.cols);
    const auto rows = static_cast<std::size_t>(info.rows);
    std::vector<double> flat =
        array != nullptr ? numbers(*array, kMostPixels) : std::vector<double>{};
    if (flat.size() != cols * rows || cols < 2 || rows < 2) {
      throw input.error(fmt::format(
          "is a curvilinear grid, and its \"{}\" holds no position for each of its {} x {} pixels "
          "({} at most); put it on a regular grid first",
          foreign_text(name), info.cols, info.rows, kMostPixels));
    }
    // Pixels of such a variable are handed out from the last row of the file to the first.
    for (std::size_t row = 0; row < rows / 2; ++row) {
      std::swap_ranges(flat.begin() + static_cast<std::ptrdiff_t>(row * cols),
                       flat.begin() + static_cast<std::ptrdiff_t>((row + 1) * cols),
                       flat.begin() + static_cast<std::ptrdiff_t>((rows - 1 - row) * cols));
    }
    return flat;
  };
  info.curves =
      std::make_shared<const CurvilinearGrid>(info.cols, info.rows, turned(lon), turned(lat));
}

}  // namespace tidelot::geoio
