// SPDX-License-Identifier: Apache-2.0
// Files, PROJ and the layers together.
#include <catch2/catch.hpp>
#include <cmath>
#include <thread>

#include "fixtures.hpp"
#include "tidelot/layers/layer_set.hpp"

using namespace tidelot;
using namespace tidelot::fixtures;
using Catch::Contains;

namespace {

Plan plan_on(const Folder& folder) {
  Plan plan;
  plan.area = {-30.06, 41.02, -30.03, 41.04, true, std::nullopt, 20.0, "auto"};
  plan.depth.file = folder.file("depth.tif");
  plan.depth.datum = "MLLW";
  plan.temperature = {Quantity::temperature, "water.temperature", 18.0, "", std::nullopt};
  plan.salinity = {Quantity::salinity, "water.salinity", 28.0, "", std::nullopt};
  plan.light = {Quantity::attenuation, "water.light", 0.8, "", std::nullopt};
  plan.nitrogen = {Quantity::nitrogen, "water.nitrogen", 10.0, "umol/L", std::nullopt};
  plan.current = {Quantity::current, "water.current", 0.2, "", std::nullopt};
  return plan;
}

/// Depth of the fixture at pixel coordinates: bilinear between pixel centres by definition.
double depth_at_pixel(double col, double row) {
  return 5.0 + 3.0 * std::sin(col * 0.7) + 2.0 * std::cos(row * 0.9);
}

/// 400 x 300 pixels of 0.0002 degrees from 30.08 W 41.06 N, in deflated tiles.
RasterRecipe depth_recipe() {
  RasterRecipe recipe;
  recipe.cols = 400;
  recipe.rows = 300;
  recipe.epsg_code = 4326;
  recipe.geotransform = {-30.08, 0.0002, 0, 41.06, 0, -0.0002};
  recipe.options = {"COMPRESS=DEFLATE", "TILED=YES", "BLOCKXSIZE=64", "BLOCKYSIZE=64"};
  for (int row = 0; row < recipe.rows; ++row) {
    for (int col = 0; col < recipe.cols; ++col) {
      recipe.values.push_back(static_cast<float>(depth_at_pixel(col, row)));
    }
  }
  return recipe;
}

double exact_sample(const RasterRecipe& recipe, double lon, double lat) {
  const double x = (lon - recipe.geotransform[0]) / 0.0002 - 0.5;
  const double y = (recipe.geotransform[3] - lat) / 0.0002 - 0.5;
  const auto at = [&](int col, int row) {
    return recipe.values[static_cast<std::size_t>(row * recipe.cols + col)];
  };
  const int c = static_cast<int>(std::floor(x));
  const int r = static_cast<int>(std::floor(y));
  const double u = x - c;
  const double v = y - r;
  return (at(c, r) * (1 - u) + at(c + 1, r) * u) * (1 - v) +
         (at(c, r + 1) * (1 - u) + at(c + 1, r + 1) * u) * v;
}

}  // namespace

TEST_CASE("sampled depths agree with an exact computation, cell by cell") {
  const Folder folder;
  const RasterRecipe recipe = depth_recipe();
  write_raster(folder / "depth.tif", recipe);
  const auto opener = geoio::make_opener();
  const auto layers = open_layers(plan_on(folder), *opener);
  const Grid& grid = layers->grid();
  CHECK(grid.crs == "EPSG:32625");
  const auto depth = layers->sample_depth({0, 0, grid.cols, grid.rows});
  const auto to_degrees = opener->projector(grid.crs, "EPSG:4326", "x");
  double worst = 0.0;
  for (int row = 0; row < grid.rows; ++row) {
    for (int col = 0; col < grid.cols; ++col) {
      XY p = grid.centre(col, row);
      to_degrees->forward({&p, 1});
      worst =
          std::max(worst, std::abs(exact_sample(recipe, p.x, p.y) - depth[grid.index(col, row)]));
    }
  }
  // 0.01 m of position on a slope of at most 2.7 m in 16.8 m
  CHECK(worst < 0.01 * 2.7 / 16.8);
  CHECK(layers->reports().front().cover == 1.0);
  CHECK_THAT(layers->reports().front().what, Contains("GTiff raster, 400 x 300, 1 band"));
}

TEST_CASE("one truth in four kinds of file gives one map") {
  const Folder folder;
  const RasterRecipe north_up = depth_recipe();
  RasterRecipe south_up = north_up;
  south_up.geotransform = {-30.08, 0.0002, 0, 41.06 - 300 * 0.0002, 0, 0.0002};
  RasterRecipe point = north_up;
  point.more = [](GDALDataset& d) { d.SetMetadataItem(GDALMD_AREA_OR_POINT, GDALMD_AOP_POINT); };
  RasterRecipe feet = north_up;
  feet.type = GDT_Float64;
  feet.more = [](GDALDataset& d) { d.GetRasterBand(1)->SetUnitType("ft"); };
  for (int row = 0; row < 300; ++row) {
    for (int col = 0; col < 400; ++col) {
      const auto here = static_cast<std::size_t>(row * 400 + col);
      south_up.values[static_cast<std::size_t>((299 - row) * 400 + col)] = north_up.values[here];
      feet.values[here] = north_up.values[here] / 0.3048;
    }
  }
  const auto opener = geoio::make_opener();
  const auto map_of = [&](const RasterRecipe& recipe) {
    write_raster(folder / "depth.tif", recipe);
    const auto layers = open_layers(plan_on(folder), *opener);
    return layers->sample_depth({0, 0, layers->grid().cols, layers->grid().rows});
  };
  const auto want = map_of(north_up);
  for (const RasterRecipe* recipe : {&south_up, &point, &feet}) {
    const auto got = map_of(*recipe);
    REQUIRE(got.size() == want.size());
    float worst = 0.0F;
    for (std::size_t i = 0; i < got.size(); ++i) {
      worst = std::max(worst, std::abs(got[i] - want[i]));
    }
    CHECK(worst < 2e-6F);
  }
}

TEST_CASE("pixels cut off are found when the layers are opened") {
  const Folder folder;
  write_raster(folder / "depth.tif", depth_recipe());
  const auto size = std::filesystem::file_size(folder / "depth.tif");
  std::filesystem::resize_file(folder / "depth.tif", size * 2 / 3);
  const auto opener = geoio::make_opener();
  CHECK_THAT(failure([&] { (void)open_layers(plan_on(folder), *opener); }),
             Contains("depth: depth.tif"));
}

TEST_CASE("clones on four threads sample what one does") {
  const Folder folder;
  write_raster(folder / "depth.tif", depth_recipe());
  const auto opener = geoio::make_opener();
  const auto layers = open_layers(plan_on(folder), *opener);
  const Tile all{0, 0, layers->grid().cols, layers->grid().rows};
  const auto want = layers->sample_depth(all);
  std::vector<std::unique_ptr<LayerSet>> clones;
  for (int i = 0; i < 4; ++i) {
    clones.push_back(layers->clone());
  }
  std::array<int, 4> equal{};
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < 4; ++i) {
    threads.emplace_back([&, i] {
      for (int round = 0; round < 5; ++round) {
        equal[i] += clones[i]->sample_depth(all) == want ? 1 : 0;
      }
    });
  }
  for (std::thread& thread : threads) {
    thread.join();
  }
  CHECK(equal == std::array<int, 4>{5, 5, 5, 5});
}

TEST_CASE("rasters that stay in their files are read by every thread through its own handle") {
  const Folder folder;
  write_raster(folder / "depth.tif", depth_recipe());
  const auto opener = geoio::make_opener();
  const auto source = opener->open_raster(folder.file("depth.tif"), "depth");
  const auto want = all_values(*source);
  std::array<int, 4> equal{};
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < 4; ++i) {
    threads.emplace_back([&, i, own = std::shared_ptr<RasterSource>(source->clone())] {
      for (int round = 0; round < 10; ++round) {
        equal[i] += all_values(*own) == want ? 1 : 0;
      }
    });
  }
  for (std::thread& thread : threads) {
    thread.join();
  }
  CHECK(equal == std::array<int, 4>{10, 10, 10, 10});
}

TEST_CASE("a grid in a system of the user's choosing, and closed shapes on it") {
  const Folder folder;
  write_raster(folder / "depth.tif", depth_recipe());
  folder.write("closed.geojson",
               R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},)"
               R"("geometry":{"type":"Point","coordinates":[-30.045,41.03]}}]})");
  Plan plan = plan_on(folder);
  plan.area.crs = "+proj=laea +lat_0=41 +lon_0=-30 +datum=WGS84 +units=m";
  plan.closed.push_back({"wreck", folder.file("closed.geojson"), "", 100.0, false, ""});
  const auto opener = geoio::make_opener();
  const auto layers = open_layers(plan, *opener);
  CHECK_THAT(layers->grid().crs, Contains("Lambert Azimuthal Equal Area"));
  REQUIRE(layers->closed().at(0).features.size() == 1);
  const XY wreck = layers->closed()[0].features[0].shape.points.at(0);
  CHECK(layers->grid().holds(layers->grid().cell_of(wreck)));
  plan.area.crs = "EPSG:3035";  // its datum is not tied to WGS 84 in mid-ocean
  CHECK_THAT(failure([&] { (void)open_layers(plan, *opener); }, Fault::plan), Contains("area.crs"));
  plan.area.crs = "EPSG:3857";
  CHECK_THAT(failure([&] { (void)open_layers(plan, *opener); }, Fault::plan), Contains("area.crs"));
}
