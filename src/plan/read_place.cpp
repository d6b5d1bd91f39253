// SPDX-License-Identifier: Apache-2.0
// [area]: where; [run]: how near to it.
#include <algorithm>
#include <string>
#include <tuple>
#include <vector>

#include "plan/read_tables.hpp"

namespace tidelot::planfile {

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

bool read_allow_ballpark(Reading& reading) {
  const std::vector<std::string> allowed = Section(reading, "run").words("allow");
  return std::find(allowed.begin(), allowed.end(), "ballpark") != allowed.end();
}

MapCodec read_codec(Reading& reading) {
  return Section(reading, "run").text("codec") == "deflate" ? MapCodec::deflate : MapCodec::zstd;
}

}  // namespace tidelot::planfile
