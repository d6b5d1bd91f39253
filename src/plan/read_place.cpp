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

Allowances allowances_of(const toml::table& root) {
  const toml::array* words = root.at_path("run.allow").as_array();
  const auto has = [&](std::string_view word) {
    return words != nullptr && std::any_of(words->begin(), words->end(), [&](const toml::node& n) {
             return n.value_or(std::string()) == word;
           });
  };
  return {has("ballpark"), has("outside"), has("network")};
}

MapCodec read_codec(Reading& reading) {
  Section run(reading, "run");
  static_cast<void>(run.words("allow"));
  return run.text("codec") == "deflate" ? MapCodec::deflate : MapCodec::zstd;
}

}  // namespace tidelot::planfile
