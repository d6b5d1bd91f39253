// SPDX-License-Identifier: Apache-2.0
// [area] and [depth]: where, and how deep.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

#include "plan/read_tables.hpp"
#include "plan/unit_check.hpp"

namespace tidelot {
namespace {

/// Names of low-water datums in lower case.
constexpr std::array<std::string_view, 8> kLowWaterDatums{"mllw",
                                                          "mlw",
                                                          "lat",
                                                          "chart datum",
                                                          "lowest astronomical tide",
                                                          "mean lower low water",
                                                          "mean low water",
                                                          "low water"};

/// In lower case, blanks at the ends dropped and each run of blanks made one.
std::string plain_words(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\t';
    if (!blank) {
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    } else if (!out.empty() && out.back() != ' ') {
      out += ' ';
    }
  }
  if (out.ends_with(' ')) {
    out.pop_back();
  }
  return out;
}

}  // namespace

bool is_low_water_datum(std::string_view datum) {
  return std::find(kLowWaterDatums.begin(), kLowWaterDatums.end(), plain_words(datum)) !=
         kLowWaterDatums.end();
}

namespace planfile {

AreaPlan read_area(Reading& reading) {
  Section area(reading, "area");
  if (!area.given("bounds") && !area.given("outline")) {
    area.fail("bounds",
              "is missing; give bounds = [west, south, east, north] in degrees, or an "
              "outline");
  }
  AreaPlan out;
  out.has_bounds = area.given("bounds");
  if (out.has_bounds) {
    const std::vector<double> box = area.numbers("bounds");
    std::tie(out.west, out.south, out.east, out.north) = std::tuple(box[0], box[1], box[2], box[3]);
  }
  out.outline = area.maybe_file("outline");
  out.cell_m = area.number("cell_m");
  out.crs = area.text("crs");
  const std::string edge = area.text("edge");
  out.edge = edge == "full" ? EdgeRule::full : edge == "any" ? EdgeRule::any : EdgeRule::half;
  return out;
}

std::optional<LandPlan> read_land(Reading& reading) {
  if (!reading.root.contains("land")) {
    return std::nullopt;
  }
  Section land(reading, "land");
  LandPlan out;
  out.file = land.file("file");
  out.file.layer = land.text("layer");
  out.where = land.text("where");
  out.shapes_are_water = land.text("inside") == "water";
  return out;
}

DepthPlan read_depth(Reading& reading) {
  Section depth(reading, "depth");
  DepthPlan out;
  out.file = depth.file("file");
  out.file.variable = depth.text("variable");
  out.file.layer = depth.text("layer");
  out.positive = depth.text("positive") == "up" ? Positive::up : Positive::down;
  out.unit = checked_unit(depth, Quantity::depth);
  out.datum = depth.text("datum");
  if (!depth.given("low_water_m") && !is_low_water_datum(out.datum)) {
    depth.fail("low_water_m",
               fmt::format("is missing; datum \"{}\" is not a low-water one, so say how far low "
                           "water lies above it in metres (negative where below), or name a raster",
                           out.datum));
  }
  if (const auto* file = depth.table()->get_as<std::string>("low_water_m"); file) {
    out.low_water = depth.file("low_water_m");
  } else {
    out.low_water = depth.number("low_water_m");
  }
  out.tidal_range_m = depth.number("tidal_range_m");
  out.lowest_tide_m = depth.number("lowest_tide_m");
  return out;
}

}  // namespace planfile
}  // namespace tidelot
