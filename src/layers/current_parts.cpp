// SPDX-License-Identifier: Apache-2.0
#include "current_parts.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <utility>
#include <vector>

#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

bool holds(const std::string& name, std::string_view part) {
  return lower_ascii(name).find(part) != std::string::npos;
}

bool has_true_axes(const RasterInfo& info) {
  return info.geographic && info.curves == nullptr && info.geotransform[2] == 0.0 &&
         info.geotransform[4] == 0.0;
}

std::vector<std::int64_t> days(const RasterInfo& info) {
  std::vector<std::int64_t> out;
  for (const TimeStep& step : info.steps) {
    out.push_back(step.number);
  }
  return out;
}

bool are_twins(const RasterInfo& a, const RasterInfo& b) {
  return is_same_lattice(a, b) && a.bands == b.bands && days(a) == days(b) &&
         a.levels_m == b.levels_m && a.unit == b.unit;
}

}  // namespace

std::string trouble_with_parts(const std::string& key, const std::string& written,
                               const RasterInfo& east, const RasterInfo& north) {
  const bool swapped =
      holds(east.standard_name, "northward") || holds(east.standard_name, "y_velocity") ||
      holds(north.standard_name, "eastward") || holds(north.standard_name, "x_velocity");
  if (swapped) {
    throw Error(Fault::input,
                fmt::format("{}: {}: its standard names are {} for eastward and {} for northward; "
                            "they look swapped",
                            key, written, east.standard_name, north.standard_name));
  }
  if (has_true_axes(east) || holds(east.standard_name, "eastward")) {
    return "";
  }
  return holds(east.standard_name, "x_velocity")
             ? "the current's parts run along the grid's own rows and columns: its speed is used, "
               "its direction is not; give water.current.direction, or eastward and northward parts"
             : "nothing says that the current's parts run east and north: its speed is used, its "
               "direction is not; give water.current.direction, or the standard names";
}

NorthwardPart open_northward(const RasterWish& wish, const FileRef& file, const RasterInfo& east,
                             Opening& opening) {
  FileRef second = file;
  second.variable = wish.northward;
  NorthwardPart north{opening.opener.open_raster(second, wish.key), false};
  const RasterInfo& info = north.source->info();
  if (!are_twins(east, info)) {
    throw Error(Fault::input,
                fmt::format("{}: {}: \"{}\" and \"{}\" differ in their pixels, steps, levels or "
                            "unit; bring them onto one grid first",
                            wish.key, file.written, file.variable, wish.northward));
  }
  const std::string trouble = trouble_with_parts(wish.key, file.written, east, info);
  north.says_direction = trouble.empty();
  if (!trouble.empty()) {
    opening.warnings.push_back(fmt::format("{}: {}: {}", wish.key, file.written, trouble));
  }
  return north;
}

}  // namespace tidelot
