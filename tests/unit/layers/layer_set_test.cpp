// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/layer_set.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "layers/area_grid.hpp"
#include "layers/layer_cover.hpp"
#include "layers/outline_mask.hpp"
#include "support/twins.hpp"

using namespace tidelot;
using Catch::Contains;
using twins::kNan;

namespace {

FileRef file(const std::string& written) { return {"/plans/" + written, written, "", ""}; }

/// A plan of constants over a small area, with a depth raster "depth.tif".
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

/// 20 x 12 pixels of 0.002 degrees around the area, with one value everywhere.
std::unique_ptr<MemoryRaster> flat(float value, int bands = 1) {
  return twins::raster(20, 12, bands, -30.03, 41.017, 0.002, -0.002,
                       std::vector<float>(static_cast<std::size_t>(20 * 12 * bands), value));
}

std::unique_ptr<MemoryRaster> with(std::unique_ptr<MemoryRaster> raster,
                                   void (*change)(RasterInfo&, std::vector<float>&)) {
  RasterInfo info = raster->info();
  std::vector<float> values(static_cast<std::size_t>(info.cols * info.rows * info.bands));
  for (int band = 0; band < info.bands; ++band) {
    const auto size = static_cast<std::size_t>(info.cols * info.rows);
    raster->read(band, {0, 0, info.cols, info.rows},
                 std::span(values).subspan(static_cast<std::size_t>(band) * size, size));
  }
  change(info, values);
  return std::make_unique<MemoryRaster>(info, std::make_shared<const std::vector<float>>(values));
}

Tile whole(const LayerSet& layers) { return {0, 0, layers.grid().cols, layers.grid().rows}; }

std::string failure(const Plan& plan, Opener& opener, Fault fault = Fault::input) {
  try {
    (void)open_layers(plan, opener);
  } catch (const Error& e) {
    CHECK(e.fault() == fault);
    CHECK(std::string(e.what()).find('\n') == std::string::npos);
    return e.what();
  }
  return "no failure";
}

const LayerReport& report(const LayerSet& layers, const std::string& key) {
  for (const LayerReport& r : layers.reports()) {
    if (r.key == key) {
      return r;
    }
  }
  FAIL("no report " + key);
  return layers.reports().front();
}

bool warns(const LayerSet& layers, const std::string& text) {
  for (const std::string& warning : layers.warnings()) {
    if (warning.find(text) != std::string::npos) {
      return true;
    }
  }
  return false;
}

}  // namespace

TEST_CASE("constants fill every cell, in their canonical units") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  Plan plan = small_plan();
  plan.temperature.source = 291.15;
  plan.temperature.unit = "K";
  plan.salinity.source = Monthly{29, 28, 28, 27, 27, 28, 29, 29, 30, 30, 29, 31};
  const auto layers = open_layers(plan, opener);
  const TileLayers tile = layers->sample(whole(*layers));
  CHECK(tile.depth_low_water.size() == layers->grid().size());
  CHECK(tile.depth_low_water.back() == 6.0F);
  CHECK(tile.temperature.steady);
  CHECK(tile.temperature.month[0].front() == Approx(18.0));
  CHECK(tile.temperature.month[1].empty());
  CHECK_FALSE(tile.salinity.steady);
  CHECK(tile.salinity.month[11].back() == 31.0F);
  CHECK(tile.radiation.month[0].empty());
  CHECK(tile.own.empty());
  CHECK(tile.inside == std::vector<std::uint8_t>(layers->grid().size(), 1));
  CHECK(report(*layers, "water.temperature").unit == "K -> degC");
  CHECK(report(*layers, "water.salinity").high == 31.0);
  CHECK(report(*layers, "depth").cover == 1.0);
  CHECK(report(*layers, "depth").verdict == "at low water 100.0 % water, 0.0 % land");
}

TEST_CASE("the depth at low water, downward and upward, in feet and over a varying datum") {
  twins::MemoryOpener opener;
  Plan plan = small_plan();
  plan.depth.low_water = -1.1;
  opener.rasters["depth.tif"] = flat(5.0F);
  CHECK(open_layers(plan, opener)->sample_depth({0, 0, 1, 1})[0] == Approx(3.9F));
  plan.depth.positive = Positive::up;
  opener.rasters["depth.tif"] = flat(-5.0F);
  CHECK(open_layers(plan, opener)->sample_depth({0, 0, 1, 1})[0] == Approx(3.9F));
  plan.depth.unit = "ft";
  CHECK(open_layers(plan, opener)->sample_depth({0, 0, 1, 1})[0] == Approx(5 * 0.3048 - 1.1));
  plan.depth.low_water = file("mllw.tif");
  opener.rasters["mllw.tif"] = flat(0.5F);
  CHECK(open_layers(plan, opener)->sample_depth({0, 0, 1, 1})[0] == Approx(5 * 0.3048 + 0.5));
  opener.rasters["mllw.tif"] = flat(kNan);
  CHECK(std::isnan(open_layers(plan, opener)->sample_depth({0, 0, 1, 1})[0]));
}

TEST_CASE("a sign that makes nearly all water land is refused, naming depth.positive") {
  twins::MemoryOpener opener;
  Plan plan = small_plan();
  opener.rasters["depth.tif"] = flat(-5.0F);
  CHECK_THAT(failure(plan, opener), Contains("depth.positive") && Contains("depth.tif"));
  plan.depth.positive = Positive::up;
  CHECK(failure(plan, opener) == "no failure");
  opener.rasters["depth.tif"] = flat(5.0F);
  CHECK_THAT(failure(plan, opener), Contains("depth.positive"));
  opener.rasters["depth.tif"] =
      with(flat(-5.0F), [](RasterInfo& info, auto&) { info.positive = "down"; });
  CHECK_THAT(failure(plan, opener), Contains("says of itself"));
}

TEST_CASE("the plan's unit goes before the file's, and both must not differ") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  Plan plan = small_plan();
  plan.temperature.source = file("t.nc");
  opener.rasters["t.nc"] = with(flat(290.0F), [](RasterInfo& info, auto&) { info.unit = "K"; });
  const auto layers = open_layers(plan, opener);
  CHECK(layers->sample({0, 0, 1, 1}).temperature.month[0][0] == Approx(16.85));
  CHECK(report(*layers, "water.temperature").unit == "K -> degC");
  CHECK_THAT(report(*layers, "water.temperature").basis, Contains("unit from the file"));
  plan.temperature.unit = "degC";
  CHECK_THAT(failure(plan, opener), Contains("water.temperature") && Contains("\"K\""));
  plan.temperature.unit = "";
  opener.rasters["t.nc"] = with(flat(15.0F), [](RasterInfo& info, auto&) { info.unit = "blorp"; });
  CHECK_THAT(failure(plan, opener), Contains("blorp") && Contains("water.temperature.unit"));
  plan.temperature.unit = "degC";
  CHECK(failure(plan, opener) == "no failure");
  plan.temperature.unit = "parsec";
  CHECK_THAT(failure(plan, opener, Fault::plan), Contains("parsec"));
}

TEST_CASE("nitrogen has no default unit") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  opener.rasters["n.tif"] = flat(10.0F);
  Plan plan = small_plan();
  plan.nitrogen.source = file("n.tif");
  plan.nitrogen.unit = "";
  CHECK_THAT(failure(plan, opener, Fault::plan),
             Contains("n.tif") && Contains("water.nitrogen.unit"));
  opener.rasters["n.tif"] =
      with(flat(0.01F), [](RasterInfo& info, auto&) { info.unit = "mol m-3"; });
  CHECK(open_layers(plan, opener)->sample({0, 0, 1, 1}).nitrogen.month[0][0] == Approx(10.0));
  plan.nitrogen.source = 10.0;
  CHECK_THAT(failure(plan, opener, Fault::plan), Contains("water.nitrogen.unit"));
}

TEST_CASE("a wrong unit shows in the values and is refused with what was seen") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  opener.rasters["t.tif"] = flat(290.0F);
  Plan plan = small_plan();
  plan.temperature.source = file("t.tif");
  CHECK_THAT(failure(plan, opener),
             Contains("water.temperature") && Contains("290") && Contains("-3 to 45"));
  plan.temperature.source = 290.0;
  CHECK_THAT(failure(plan, opener, Fault::plan), Contains("water.temperature"));
}

TEST_CASE("a single value beyond belief becomes unknown, with a warning") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  Plan plan = small_plan();
  plan.temperature.source = file("t.tif");
  std::vector<float> values(80 * 60, 15.0F);
  values[30 * 80 + 40] = 1e9F;
  opener.rasters["t.tif"] = twins::raster(80, 60, 1, -30.03, 41.02, 0.0005, -0.0005, values);
  const auto layers = open_layers(plan, opener);
  CHECK(warns(*layers, "1 values outside"));
  CHECK(report(*layers, "water.temperature").high == Approx(15.0));
  CHECK(report(*layers, "water.temperature").cover < 1.0);
  CHECK(report(*layers, "water.temperature").cover > 0.98);
  CHECK_THAT(report(*layers, "water.temperature").verdict, Contains("no data in"));
}

TEST_CASE("an undeclared fill value of elevations is not taken for a trench") {
  twins::MemoryOpener opener;
  Plan plan = small_plan();
  plan.depth.positive = Positive::up;
  opener.rasters["depth.tif"] = with(flat(-4.0F), [](RasterInfo&, std::vector<float>& v) {
    for (std::size_t i = 0; i < v.size() / 2; ++i) {
      v[i] = -9999.0F;
    }
  });
  CHECK_THAT(failure(plan, opener), Contains("depth.tif") && Contains("no data"));
}

TEST_CASE("twelve bands are the twelve months, by the time axis where there is one") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  Plan plan = small_plan();
  plan.temperature.source = file("t.nc");
  const auto number_bands = [](RasterInfo&, std::vector<float>& v) {
    for (std::size_t i = 0; i < v.size(); ++i) {
      v[i] = static_cast<float>(i / 240);
    }
  };
  opener.rasters["t.nc"] = with(flat(0.0F, 12), number_bands);
  TileLayers tile = open_layers(plan, opener)->sample({3, 3, 2, 2});
  CHECK(tile.temperature.month[0][0] == 0.0F);
  CHECK(tile.temperature.month[11][3] == 11.0F);
  opener.rasters["t.nc"] = with(with(flat(0.0F, 12), number_bands), [](RasterInfo& info, auto&) {
    for (int band = 0; band < 12; ++band) {
      info.steps.push_back({2001 + (band + 6) / 12, (band + 6) % 12, 1, 31 * band});
    }
  });
  tile = open_layers(plan, opener)->sample({3, 3, 2, 2});
  CHECK(tile.temperature.month[6][0] == 0.0F);
  CHECK(tile.temperature.month[5][0] == 11.0F);
  opener.rasters["t.nc"] = with(flat(0.0F, 12), [](RasterInfo& info, auto&) {
    for (int band = 0; band < 12; ++band) {
      info.steps.push_back({2001, std::max(0, band - 1), 1, 30 * band});
    }
    info.times = "2001-01-01 to 2001-11-01";
  });
  CHECK_THAT(failure(plan, opener), Contains("none in Dec") && Contains("2001-11-01"));
  opener.rasters["t.nc"] = flat(10.0F, 3);
  CHECK_THAT(failure(plan, opener), Contains("3 bands") && Contains("t.nc"));
  opener.rasters["t.nc"] = flat(10.0F, 1);
  const auto layers = open_layers(plan, opener);
  CHECK(layers->sample({0, 0, 1, 1}).temperature.steady);
  CHECK(warns(*layers, "one band, taken for all twelve months"));
}

TEST_CASE("{month} stands for twelve files of one band each") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  for (int m = 1; m <= 12; ++m) {
    opener.rasters["kd_" + std::string(m < 10 ? "0" : "") + std::to_string(m) + ".tif"] =
        flat(static_cast<float>(m) / 10.0F);
  }
  Plan plan = small_plan();
  plan.light.source = file("kd_{month}.tif");
  const auto layers = open_layers(plan, opener);
  const TileLayers tile = layers->sample({1, 1, 1, 1});
  CHECK(tile.attenuation.month[0][0] == 0.1F);
  CHECK(tile.attenuation.month[11][0] == 1.2F);
  REQUIRE(layers->files().size() == 13);
  CHECK(layers->files()[1].written == "kd_01.tif");
  CHECK(layers->files()[12].path == "/plans/kd_12.tif");
  opener.rasters["kd_07.tif"] = flat(0.7F, 2);
  CHECK_THAT(failure(plan, opener), Contains("kd_07.tif"));
  opener.rasters.erase("kd_07.tif");
  CHECK_THAT(failure(plan, opener), Contains("kd_07.tif"));
}

TEST_CASE("attenuation from Secchi depths") {
  CHECK(kd_from_secchi(0.5) == Approx(2.88));
  CHECK(kd_from_secchi(2.0) == Approx(0.72));
  CHECK(kd_from_secchi(5.0) == Approx(0.34));
  CHECK(kd_from_secchi(10.0) == Approx(0.17));
  CHECK(std::isnan(kd_from_secchi(0.0)));
  CHECK(std::isnan(kd_from_secchi(std::nan(""))));
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  opener.rasters["z.tif"] = flat(200.0F);
  Plan plan = small_plan();
  plan.light = {Quantity::secchi, "water.light", file("z.tif"), "cm", std::nullopt};
  const auto layers = open_layers(plan, opener);
  CHECK(layers->sample({0, 0, 1, 1}).attenuation.month[0][0] == Approx(0.72));
  CHECK(report(*layers, "water.light").low == Approx(0.72));
  plan.light.source = 2.0;
  plan.light.unit = "m";
  CHECK(open_layers(plan, opener)->sample({0, 0, 1, 1}).attenuation.month[0][0] == Approx(0.72));
  plan.light.quantity = Quantity::turbidity;
  CHECK_THAT(failure(plan, opener, Fault::plan), Contains("water.light"));
}

TEST_CASE("a layer beside the area is refused with where it lies and a hint") {
  twins::MemoryOpener opener;
  Plan plan = small_plan();
  const auto at = [](double lon, double lat) {
    return twins::raster(20, 20, 1, lon - 0.02, lat + 0.02, 0.002, -0.002,
                         std::vector<float>(400, 5.0F));
  };
  opener.rasters["depth.tif"] = at(-10.0, 50.0);
  CHECK_THAT(failure(plan, opener), Contains("depth") && Contains("depth.tif") &&
                                        Contains("10.0200 W") && Contains("50.0200 N"));
  opener.rasters["depth.tif"] = at(30.01, 41.005);
  CHECK_THAT(failure(plan, opener), Contains("longitude's minus sign"));
  opener.rasters["depth.tif"] = at(-30.01, -41.005);
  CHECK_THAT(failure(plan, opener), Contains("latitude's minus sign"));
  opener.rasters["depth.tif"] = at(41.005, -30.01);
  CHECK_THAT(failure(plan, opener), Contains("swapped"));
}

TEST_CASE("fine pixels are named: values are taken at the cell's centre") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = twins::raster(2000, 1200, 1, -30.03, 41.017, 0.00002, -0.00002,
                                              std::vector<float>(2000 * 1200, 5.0F));
  const Plan plan = small_plan();
  CHECK_THAT(failure(plan, opener), Contains("no failure"));
  const auto layers = open_layers(plan, opener);
  CHECK_THAT(report(*layers, "depth").verdict, Contains("source pixels a cell"));
}

TEST_CASE("the outline cuts, by the cells' centres") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  Plan plan = small_plan();
  plan.area.outline = file("bay.geojson");
  const Grid grid = grid_of(plan, opener);
  const XY a = grid.centre(3, 5);
  const XY b = grid.centre(9, 11);
  const Polygon square{{{a.x - 1, a.y + 1},
                        {b.x + 1, a.y + 1},
                        {b.x + 1, b.y - 1},
                        {a.x - 1, b.y - 1},
                        {a.x - 1, a.y + 1}},
                       {{{a.x + 99, a.y - 99},
                         {a.x + 101, a.y - 99},
                         {a.x + 101, a.y - 101},
                         {a.x + 99, a.y - 101},
                         {a.x + 99, a.y - 99}}}};
  opener.features["bay.geojson"].features.push_back({Shape{{square}, {}, {}}, "bay"});
  const auto layers = open_layers(plan, opener);
  const TileLayers tile = layers->sample(whole(*layers));
  for (int row = 0; row < grid.rows; ++row) {
    for (int col = 0; col < grid.cols; ++col) {
      CAPTURE(row, col);
      const bool want = contains(square, grid.centre(col, row));
      REQUIRE((tile.inside[grid.index(col, row)] == 1) == want);
    }
  }
  CHECK(tile.inside[grid.index(3, 5)] == 1);
  CHECK(tile.inside[grid.index(5, 7)] == 0);  // the hole
  opener.features["bay.geojson"].features.clear();
  CHECK_THAT(failure(plan, opener), Contains("area.outline") && Contains("bay.geojson"));
}

namespace {

/// The western half of the grid and somewhat more, as a closed path.
Path west_half(const Grid& grid) {
  const XY a{grid.west - 500.0, grid.north + 500.0};
  const XY b{grid.west + grid.cell_m * (grid.cols / 2), grid.south() - 500.0};
  return {{a.x, a.y}, {b.x, a.y}, {b.x, b.y}, {a.x, b.y}, {a.x, a.y}};
}

}  // namespace

TEST_CASE("[land] makes land of what the depth layer calls water") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  Plan plan = small_plan();
  const Grid grid = grid_of(plan, opener);
  const bool as_line = GENERATE(false, true);
  const bool water_shapes = GENERATE(false, true);
  Shape shape;
  if (as_line) {
    shape.lines.push_back(west_half(grid));
  } else {
    shape.polygons.push_back({west_half(grid), {}});
  }
  opener.features["shore.gpkg"].features.push_back({shape, "shore"});
  plan.land = LandPlan{file("shore.gpkg"), "", water_shapes};
  const auto layers = open_layers(plan, opener);
  const TileLayers tile = layers->sample(whole(*layers));
  const std::vector<float> depth = layers->clone()->sample_depth(whole(*layers));
  for (int col = 0; col < grid.cols; ++col) {
    const bool land = (col < grid.cols / 2) != water_shapes;
    CAPTURE(col);
    CHECK(tile.depth_low_water[grid.index(col, 3)] == (land ? 0.0F : 6.0F));
    CHECK(depth[grid.index(col, 3)] == (land ? 0.0F : 6.0F));
  }
  CHECK(warns(*layers, "land: shore.gpkg: takes 50.0 % of the water"));
}

TEST_CASE("[land] over land changes nothing, and unknown depth on land is land") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = with(flat(6.0F), [](RasterInfo&, std::vector<float>& v) {
    for (std::size_t i = 0; i < v.size(); ++i) {
      v[i] = i % 20 < 8 ? -2.0F : i % 20 < 10 ? kNan : 6.0F;
    }
  });
  Plan plan = small_plan();
  const Grid grid = grid_of(plan, opener);
  opener.features["shore.gpkg"].features.push_back({Shape{{{west_half(grid), {}}}, {}, {}}, ""});
  plan.land = LandPlan{file("shore.gpkg"), "", false};
  const auto layers = open_layers(plan, opener);
  const std::vector<float> depth = layers->sample_depth(whole(*layers));
  CHECK(depth[grid.index(0, 3)] == Approx(-2.0F));
  bool dried = false;
  for (int col = 0; col < grid.cols / 2; ++col) {
    CHECK(depth[grid.index(col, 3)] <= 0.0F);
    dried = dried || depth[grid.index(col, 3)] == 0.0F;
  }
  CHECK(dried);
}

TEST_CASE("[land] of open lines or points is refused: they do not say which side is land") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  Plan plan = small_plan();
  Shape shape;
  if (GENERATE(false, true)) {
    shape.lines.push_back({{0, 0}, {1, 0}, {1, 1}, {0, 1}});
  } else {
    shape.points.push_back({0, 0});
  }
  opener.features["shore.gpkg"].features.push_back({shape, "shore"});
  plan.land = LandPlan{file("shore.gpkg"), "", false};
  CHECK_THAT(failure(plan, opener), Contains("land: shore.gpkg") && Contains("polygons"));
}

TEST_CASE("the edge rule of the plan reaches every layer, and the reports count the edge") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  opener.rasters["t.tif"] = with(flat(15.0F), [](RasterInfo&, std::vector<float>& v) {
    for (std::size_t i = 0; i < v.size(); ++i) {
      v[i] = i % 20 < 10 ? kNan : 15.0F;
    }
  });
  Plan plan = small_plan();
  plan.temperature.source = file("t.tif");
  const auto cover = [&](EdgeRule edge) {
    plan.area.edge = edge;
    return report(*open_layers(plan, opener), "water.temperature");
  };
  const LayerReport half = cover(EdgeRule::half);
  const LayerReport full = cover(EdgeRule::full);
  const LayerReport any = cover(EdgeRule::any);
  CHECK(full.cover < half.cover);
  CHECK(half.cover < any.cover);
  CHECK(full.patched == 0.0);
  CHECK(half.patched == Approx(half.cover - full.cover));
  CHECK(any.patched == Approx(any.cover - full.cover));
  CHECK_THAT(half.verdict, Contains("part of the neighbours missing"));
}

TEST_CASE("problems of all layers are gathered for those who ask, each with its row") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  opener.rasters["t.tif"] = flat(300.0F);  // no temperature in degC
  Plan plan = small_plan();
  plan.temperature.source = file("t.tif");
  plan.salinity.source = file("nowhere.tif");
  plan.closed.push_back({"wrecks", file("nowhere.gpkg"), "", 0.0, false, ""});
  std::vector<Error> problems;
  const auto layers = open_layers(plan, opener, &problems);
  REQUIRE(problems.size() == 3);
  CHECK_THAT(problems[0].what(), Contains("water.temperature"));
  CHECK_THAT(problems[1].what(), Contains("nowhere.tif"));
  CHECK_THAT(problems[2].what(), Contains("nowhere.gpkg"));
  CHECK_THAT(report(*layers, "water.salinity").verdict, Contains("to mend"));
  CHECK_THAT(report(*layers, "depth").verdict, Contains("100.0 % water"));
  CHECK_THAT(failure(plan, opener), Contains("water.temperature"));
}

TEST_CASE("closed rules carry their shapes, and the box asked for holds the setback") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  opener.features["closed.gpkg"].features.push_back({Shape{{}, {}, {{1.0, 2.0}}}, "wreck"});
  opener.features["closed.gpkg"].warnings.push_back("closed[0]: one was repaired");
  Plan plan = small_plan();
  plan.closed.push_back({"wrecks", file("closed.gpkg"), "", 5000.0, false, ""});
  const auto layers = open_layers(plan, opener);
  REQUIRE(layers->closed().size() == 1);
  CHECK(layers->closed()[0].features[0].label == "wreck");
  CHECK(layers->closed()[0].plan.name == "wrecks");
  CHECK(warns(*layers, "repaired"));
  CHECK(opener.last_box.south < 41.00 - 5000.0 / 111000.0);
  CHECK(opener.last_box.west < -30.02 - 5000.0 / 83000.0);
  CHECK(opener.last_box.north > 41.01 + 5000.0 / 111000.0);
}

TEST_CASE("the user's own layers keep their values and need no unit") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  opener.rasters["quiet.tif"] = flat(123456.0F);
  Plan plan = small_plan();
  plan.criteria.push_back({"growth", Curve({{0, 0}, {2, 1}}), 1.0, std::nullopt, ""});
  plan.criteria.push_back({"quiet", Curve({{0, 0}, {2, 1}}), 1.0, file("quiet.tif"), "dB"});
  const auto layers = open_layers(plan, opener);
  const TileLayers tile = layers->sample({2, 2, 3, 3});
  REQUIRE(tile.own.size() == 1);
  CHECK(tile.own[0][4] == 123456.0F);
  CHECK(report(*layers, "criteria.quiet").unit == "dB");
}

TEST_CASE("a clone samples the same values, and tiles agree with the whole") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = with(flat(6.0F), [](RasterInfo&, std::vector<float>& v) {
    for (std::size_t i = 0; i < v.size(); ++i) {
      v[i] = i % 17 == 0 ? kNan : static_cast<float>(i % 23) + 0.5F;
    }
  });
  const auto layers = open_layers(small_plan(), opener);
  const auto copy = layers->clone();
  const auto all = layers->sample_depth(whole(*layers));
  for (const Tile& tile : tiles_of(layers->grid(), 7)) {
    const auto part = copy->sample(tile).depth_low_water;
    for (int row = 0; row < tile.rows; ++row) {
      for (int col = 0; col < tile.cols; ++col) {
        const float a = part[static_cast<std::size_t>(row * tile.cols + col)];
        const float b = all[layers->grid().index(tile.col0 + col, tile.row0 + row)];
        REQUIRE((a == b || (std::isnan(a) && std::isnan(b))));
      }
    }
  }
}

TEST_CASE("the grid covers the bounds in whole cells and refuses what is too large") {
  twins::MemoryOpener opener;
  Plan plan = small_plan();
  const Grid grid = grid_of(plan, opener);
  CHECK(std::fmod(grid.west, 50.0) == 0.0);
  CHECK(std::fmod(grid.north, 50.0) == 0.0);
  for (const LonLat corner :
       {LonLat{-30.02, 41.0}, {-30.0, 41.0}, {-30.02, 41.01}, {-30.0, 41.01}}) {
    const XY p = twins::to_local({corner.lon, corner.lat});
    CHECK(p.x >= grid.west);
    CHECK(p.x <= grid.east());
    CHECK(p.y <= grid.north);
    CHECK(p.y >= grid.south());
  }
  plan.area.cell_m = 0.01;
  CHECK_THAT(failure(plan, opener, Fault::plan), Contains("cell_m"));
  plan.area.cell_m = 5000.0;
  plan.area.east = 0.0;
  CHECK_THAT(failure(plan, opener, Fault::plan), Contains("area.bounds"));
}

TEST_CASE("without bounds the box of the outline is used") {
  twins::MemoryOpener opener;
  Plan plan = small_plan();
  plan.area.has_bounds = false;
  plan.area.outline = file("bay.geojson");
  const Polygon box{
      {{-30.02, 41.0}, {-30.0, 41.0}, {-30.0, 41.01}, {-30.02, 41.01}, {-30.02, 41.0}}, {}};
  opener.features["bay.geojson"].features.push_back({Shape{{box}, {}, {}}, ""});
  Plan bounded = small_plan();
  const Grid a = grid_of(plan, opener);
  const Grid b = grid_of(bounded, opener);
  CHECK(a.west == b.west);
  CHECK(a.north == b.north);
  CHECK(a.cols == b.cols);
  CHECK(a.rows == b.rows);
}

TEST_CASE("cover counts the cells that are not land, of water properties") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = with(flat(6.0F), [](RasterInfo&, std::vector<float>& v) {
    for (std::size_t i = 0; i < v.size(); ++i) {
      v[i] = i % 20 < 10 ? -2.0F : 6.0F;  // land in the west
    }
  });
  opener.rasters["t.tif"] = with(flat(15.0F), [](RasterInfo&, std::vector<float>& v) {
    for (std::size_t i = 0; i < v.size(); ++i) {
      v[i] = i % 20 < 8 ? kNan : 15.0F;  // unknown on the land only
    }
  });
  Plan plan = small_plan();
  plan.temperature.source = file("t.tif");
  auto layers = open_layers(plan, opener);
  CHECK(report(*layers, "water.temperature").cover == 1.0);
  CHECK(report(*layers, "water.temperature").verdict == "good");
  opener.rasters["t.tif"] = flat(kNan);
  layers = open_layers(plan, opener);
  CHECK(report(*layers, "water.temperature").cover == 0.0);
  CHECK_THAT(report(*layers, "water.temperature").verdict, Contains("no data in the area"));
  CHECK(warns(*layers, "water.temperature: no data in the area"));
}

namespace {

/// The west half of the area land, the east half water 6 m deep, by a layer of positive down.
std::unique_ptr<MemoryRaster> half_land() {
  return with(flat(6.0F), [](RasterInfo&, std::vector<float>& v) {
    for (std::size_t i = 0; i < v.size(); ++i) {
      v[i] = i % 20 < 10 ? -2.0F : 6.0F;
    }
  });
}

/// A square of 0.002 degrees whose south-west corner is given.
Feature square(double lon, double lat) {
  Feature feature;
  feature.shape.polygons.push_back(
      {{twins::to_local({lon, lat}), twins::to_local({lon + 0.002, lat}),
        twins::to_local({lon + 0.002, lat + 0.002}), twins::to_local({lon, lat + 0.002}),
        twins::to_local({lon, lat})},
       {}});
  return feature;
}

}  // namespace

TEST_CASE("the depth's row tells the shares of water, land and no data") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = half_land();
  auto layers = open_layers(small_plan(), opener);
  CHECK_THAT(report(*layers, "depth").verdict,
             Contains("at low water 52.9 % water, 47.1 % land") && !Contains("no data"));
  opener.rasters["depth.tif"] = with(half_land(), [](RasterInfo&, std::vector<float>& v) {
    for (std::size_t i = 0; i < v.size(); ++i) {
      v[i] = i / 20 < 6 ? kNan : v[i];
    }
  });
  layers = open_layers(small_plan(), opener);
  CHECK_THAT(report(*layers, "depth").verdict, Contains("% no data"));
  CHECK_FALSE(warns(*layers, "upside down"));
}

TEST_CASE("depths look upside down where what belongs into the water lies on land") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = half_land();
  Plan plan = small_plan();
  const auto doubted = [&] { return warns(*open_layers(plan, opener), "depth.positive: the"); };
  CHECK_FALSE(doubted());

  SECTION("closed areas: one may be meant to lie ashore, two are odd") {
    plan.closed.push_back({"outfall zone", file("closed.gpkg"), "", 0.0, false, ""});
    opener.features["closed.gpkg"].features = {square(-30.018, 41.004)};
    CHECK_FALSE(doubted());
    plan.closed.push_back({"moorings", file("moorings.gpkg"), "", 60.0, false, ""});
    Feature mooring;
    mooring.shape.points = {twins::to_local({-30.015, 41.005})};
    opener.features["moorings.gpkg"].features = {mooring};
    CHECK(doubted());
    CHECK(warns(*open_layers(plan, opener), "\"outfall zone\", \"moorings\""));
    opener.features["closed.gpkg"].features = {square(-30.0116, 41.004)};
    CHECK_FALSE(doubted());  // mostly on land, but drawn over the shore
    opener.features["closed.gpkg"].features = {square(-30.018, 41.004)};
    plan.closed.push_back({"channel", file("channel.gpkg"), "", 45.0, false, ""});
    opener.features["channel.gpkg"].features = {square(-30.006, 41.004)};
    CHECK_FALSE(doubted());  // it lies in the water
  }
  SECTION("a layer of water with data on the land only") {
    opener.rasters["t.tif"] = with(flat(15.0F), [](RasterInfo&, std::vector<float>& v) {
      for (std::size_t i = 0; i < v.size(); ++i) {
        v[i] = i % 20 < 10 ? 15.0F : kNan;
      }
    });
    plan.temperature.source = file("t.tif");
    CHECK(doubted());
    opener.rasters["t.tif"] = flat(15.0F);
    CHECK_FALSE(doubted());
  }
}

TEST_CASE("cover is told from every n-th tile where the grid is large, and it is said") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  Plan plan = small_plan();
  plan.area.cell_m = 5.0;  // 340 x 224 cells: three by two tiles of 128
  const auto layers = open_layers(plan, opener);
  REQUIRE(layers->grid().cols > 256);
  std::vector<LayerReport> reports{report(*layers, "depth")};
  std::vector<std::string> warnings;
  report_cover(plan, *layers, reports, warnings, {}, layers->grid().size() / 2);
  CHECK_THAT(reports[0].basis, Contains("one tile of cells in 2"));
  class Counted final : public LayerSet {
   public:
    explicit Counted(LayerSet& set) : set_(set) {}
    const Grid& grid() const override { return set_.grid(); }
    const std::string& grid_crs_name() const override { return set_.grid_crs_name(); }
    TileLayers sample(const Tile& tile) override {
      ++tiles;
      return set_.sample(tile);
    }
    std::vector<float> sample_depth(const Tile& tile) override { return set_.sample_depth(tile); }
    const std::vector<ClosedLayer>& closed() const override { return set_.closed(); }
    const std::vector<NearLayer>& near() const override { return set_.near(); }
    const std::vector<LayerReport>& reports() const override { return set_.reports(); }
    const std::vector<std::string>& warnings() const override { return set_.warnings(); }
    const std::vector<FileRef>& files() const override { return set_.files(); }
    const FieldChecks& field_checks() const override { return set_.field_checks(); }
    const std::optional<WindRose>& winds() const override { return set_.winds(); }
    std::unique_ptr<LayerSet> clone() const override { return set_.clone(); }
    int tiles = 0;

   private:
    LayerSet& set_;
  };
  const auto all = tiles_of(layers->grid(), 128).size();
  Counted every(*layers);
  report_cover(plan, every, reports, warnings, {}, layers->grid().size());
  CHECK(every.tiles == static_cast<int>(all));
  Counted half(*layers);
  report_cover(plan, half, reports, warnings, {}, layers->grid().size() / 2);
  CHECK(half.tiles == static_cast<int>((all + 1) / 2));
}

TEST_CASE("what may not lie near carries its shapes") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  opener.features["leases.gpkg"].features.push_back({Shape{{}, {}, {{1.0, 2.0}}}, "lease"});
  Plan plan = small_plan();
  plan.near.push_back({"other licences", file("leases.gpkg"), "", 305.0, 3, false, ""});
  const auto layers = open_layers(plan, opener);
  REQUIRE(layers->near().size() == 1);
  CHECK(layers->near()[0].features[0].label == "lease");
  CHECK(layers->near()[0].plan.name == "other licences");
  CHECK_THAT(report(*layers, "near[0]").what, Contains("1 in or near the area"));
}

TEST_CASE("a distance around the grid is kept in longitude too") {
  const Grid grid{500000.0, 6600000.0, 100.0, 10, 10, "local"};  // about 60 N
  auto projector = twins::projector_between("local", "EPSG:4326");
  const LonLatBox tight = degrees_around(grid, projector, 0.0);
  const LonLatBox wide = degrees_around(grid, projector, 10000.0);
  CHECK(twins::to_local({tight.east, 60.0}).x - twins::to_local({tight.west, 60.0}).x < 2000.0);
  const double metres = (tight.west - wide.west) * twins::kRadian * twins::kRadius *
                        std::cos(wide.north * twins::kRadian);
  CHECK(metres >= 9990.0);
  CHECK(metres < 10500.0);
  CHECK((wide.north - tight.north) * twins::kRadian * twins::kRadius > 9990.0);
}

TEST_CASE("columns of a rule settle each shape's setback and standing; open shapes are left out") {
  twins::MemoryOpener opener;
  opener.rasters["depth.tif"] = flat(6.0F);
  const auto add = [&](const char* label, std::optional<double> setback, const char* status) {
    Feature feature{Shape{{}, {}, {{1.0, 2.0}}}, label};
    feature.own_setback = setback;
    feature.status = status;
    opener.features["class.gpkg"].features.push_back(feature);
  };
  add("a", 40.0, "Prohibited");
  add("b", std::nullopt, "Approved");
  add("c", std::nullopt, "");
  Plan plan = small_plan();
  plan.farm.food = true;
  plan.closed.push_back({"class", file("class.gpkg"), "", 15.0, false, "", "keep_m", "class"});
  const auto layers = open_layers(plan, opener);
  CHECK(opener.last_columns.setback == "keep_m");
  CHECK(opener.last_columns.status == "class");
  const auto& features = layers->closed()[0].features;
  REQUIRE(features.size() == 2);
  CHECK(features[0].label == "a");
  CHECK(features[0].setback_m == 40.0);
  CHECK(features[0].standing == Standing::closed);
  CHECK(features[1].label == "c");
  CHECK(features[1].setback_m == 15.0);
  CHECK(features[1].standing == Standing::unknown);
  CHECK_THAT(report(*layers, "closed[0]").verdict, Contains("class: 1 open, 1 not known"));
}
