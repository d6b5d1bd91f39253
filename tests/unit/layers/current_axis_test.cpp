// SPDX-License-Identifier: Apache-2.0
#include "layers/current_axis.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "layers/current_parts.hpp"
#include "support/twins.hpp"
#include "tidelot/core/error.hpp"

using namespace tidelot;
using Catch::Contains;

namespace {

FileRef file(const std::string& written) { return {"/plans/" + written, written, "", ""}; }

Plan small_plan() {
  Plan plan;
  plan.area = {-30.02, 41.00, -30.00, 41.01, true, std::nullopt, 50.0, "local"};
  plan.depth.file = file("depth.tif");
  plan.depth.datum = "MLLW";
  plan.temperature = {Quantity::temperature, "water.temperature", 18.0, "", std::nullopt};
  plan.salinity = {Quantity::salinity, "water.salinity", 28.0, "", std::nullopt};
  plan.light = {Quantity::attenuation, "water.light", 0.8, "", std::nullopt};
  plan.nitrogen = {Quantity::nitrogen, "water.nitrogen", 10.0, "umol/L", std::nullopt};
  plan.current = {Quantity::current, "water.current", 0.2, "", std::nullopt};
  return plan;
}

std::unique_ptr<MemoryRaster> columns(float even, float odd) {
  std::vector<float> values;
  for (int i = 0; i < 20 * 12; ++i) {
    values.push_back(i % 2 == 0 ? even : odd);
  }
  return twins::raster(20, 12, 1, -30.03, 41.017, 0.002, -0.002, values);
}

RasterInfo named(const std::string& name, bool geographic = true) {
  RasterInfo info;
  info.standard_name = name;
  info.geographic = geographic;
  return info;
}

}  // namespace

TEST_CASE("a direction in the plan is an axis everywhere, either way along it") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = columns(6.0F, 6.0F);
  Plan plan = small_plan();
  CHECK(open_layers(plan, opener)->sample({0, 0, 2, 2}).current_axis_deg.empty());
  for (const double direction : {35.0, 215.0, -145.0}) {
    plan.current.direction = direction;
    const auto axis = open_layers(plan, opener)->sample({0, 0, 2, 2}).current_axis_deg;
    REQUIRE(axis.size() == 4);
    CHECK(axis[3] == Approx(35.0F).epsilon(1e-5));
  }
}

TEST_CASE("bearings of a raster are averaged as axes: between 1 and 179 lies north") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = columns(6.0F, 6.0F);
  opener.rasters["bearing.tif"] = columns(1.0F, 179.0F);
  Plan plan = small_plan();
  plan.current.direction = file("bearing.tif");
  const auto layers = open_layers(plan, opener);
  const Grid& grid = layers->grid();
  for (const float axis : layers->sample({0, 0, grid.cols, grid.rows}).current_axis_deg) {
    CHECK(std::min(axis, 180.0F - axis) <= 1.001F);
  }
  opener.rasters["bearing.tif"] = columns(-9999.0F, -9999.0F);
  CHECK(std::isnan(open_layers(plan, opener)->sample({0, 0, 1, 1}).current_axis_deg[0]));
}

TEST_CASE("parts along the grid's own axes give no direction, swapped ones are refused") {
  const auto trouble = [](const RasterInfo& east, const RasterInfo& north) {
    return trouble_with_parts("water.current", "uv.nc", east, north);
  };
  CHECK(trouble(named(""), named("")).empty());
  CHECK(trouble(named("eastward_sea_water_velocity", false),
                named("northward_sea_water_velocity", false))
            .empty());
  CHECK(trouble(named("sea_water_x_velocity"), named("sea_water_y_velocity")).empty());
  CHECK_THAT(trouble(named("sea_water_x_velocity", false), named("sea_water_y_velocity", false)),
             Contains("own rows and columns"));
  CHECK_THAT(trouble(named("", false), named("", false)), Contains("nothing says"));
  CHECK_THROWS_AS(trouble(named("northward_sea_water_velocity"), named("")), Error);
}
