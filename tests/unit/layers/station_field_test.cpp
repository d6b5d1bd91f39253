// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "support/twins.hpp"
#include "tidelot/layers/layer_set.hpp"

using namespace tidelot;
using Catch::Contains;

namespace {

FileRef file(const std::string& written) { return {"/plans/" + written, written, "", ""}; }

/// Water everywhere but for a wall of land at 30.010 W from the north edge down to 41.003 N.
std::unique_ptr<MemoryRaster> walled() {
  std::vector<float> values;
  for (int row = 0; row < 120; ++row) {
    for (int col = 0; col < 200; ++col) {
      const double lon = -30.03 + (col + 0.5) * 0.0002;
      const double lat = 41.017 - (row + 0.5) * 0.0002;
      const bool wall = std::abs(lon + 30.010) < 0.0012 && lat > 41.003;
      values.push_back(wall ? -2.0F : 6.0F);
    }
  }
  return twins::raster(200, 120, 1, -30.03, 41.017, 0.0002, -0.0002, std::move(values));
}

struct Case {
  Plan plan;
  twins::MemoryOpener opener;
  Case() {
    plan.area = {-30.02, 41.00, -30.00, 41.01, true, std::nullopt, 50.0, "local"};
    plan.depth.file = file("depth.tif");
    plan.depth.datum = "MLLW";
    plan.temperature = {Quantity::temperature, "water.temperature", 18.0, "", std::nullopt};
    plan.salinity = {Quantity::salinity, "water.salinity", 28.0, "", std::nullopt};
    plan.light = {Quantity::attenuation, "water.light", 0.8, "", std::nullopt};
    StationsRef stations;
    stations.file = file("s.csv");
    plan.nitrogen = {Quantity::nitrogen, "water.nitrogen", stations, "umol/L", std::nullopt};
    plan.current = {Quantity::current, "water.current", 0.2, "", std::nullopt};
    opener.rasters["depth.tif"] = walled();
    opener.texts["s.csv"] =
        "lon,lat,date,value\n-30.0130,41.009,2021-06-10,10\n-30.0070,41.009,2021-06-10,20\n";
  }
  StationsRef& stations() { return std::get<StationsRef>(plan.nitrogen.source); }
  std::unique_ptr<LayerSet> open() { return open_layers(plan, opener); }
};

const LayerReport& nitrogen(const LayerSet& layers) {
  for (const LayerReport& r : layers.reports()) {
    if (r.key == "water.nitrogen") {
      return r;
    }
  }
  FAIL("no report");
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

/// July at a place.
float at(LayerSet& layers, double lon, double lat, std::size_t month = 6) {
  const Cell cell = layers.grid().cell_of(twins::to_local({lon, lat}));
  REQUIRE(layers.grid().holds(cell));
  return layers.sample({cell.col, cell.row, 1, 1}).nitrogen.month[month][0];
}

std::string failure(Case& bay, Fault fault = Fault::input) {
  try {
    (void)bay.open();
  } catch (const Error& e) {
    CHECK(e.fault() == fault);
    return e.what();
  }
  return "no failure";
}

}  // namespace

TEST_CASE("stations are spread round the land between them") {
  Case bay;
  const auto layers = bay.open();
  // Each side of the wall, 250 m from its own station and across from the other's.
  CHECK(double{at(*layers, -30.0115, 41.008)} == Approx(10.0).margin(1.0));
  CHECK(double{at(*layers, -30.0085, 41.008)} == Approx(20.0).margin(1.0));
  const LayerReport& report = nitrogen(*layers);
  CHECK(report.cover == 1.0);
  CHECK(report.low >= 10.0);
  CHECK(report.high <= 20.0);
  CHECK(report.low < 10.5);
  CHECK_THAT(report.what,
             Contains("stations, 2 places, 2 days with readings, 2021-06-10 to 2021-06-10"));
  REQUIRE(report.months.size() == 12);
  CHECK(report.months[5].left_out == 2);
  CHECK(report.months[5].rmse == Approx(10.0));
  CHECK(report.months[5].bias == Approx(0.0).margin(1e-9));
  CHECK(report.months[0].filled);
  CHECK(warns(*layers, "no reading in Jan, Feb, Mar, Apr, May, Jul"));
  REQUIRE(report.error);
  CHECK(*report.error == Approx(10.0));
  CHECK_THAT(report.error_basis, Contains("left out"));
  CHECK(layers->files().back().written == "s.csv");
}

TEST_CASE("the plan's own error goes before that of leaving stations out") {
  Case bay;
  bay.plan.nitrogen.error = 0.5;
  const auto layers = bay.open();
  CHECK(*nitrogen(*layers).error == 0.5);
  CHECK(nitrogen(*layers).error_basis == "from the plan");
  // In the unit of the values, which the header may say.
  bay.plan.nitrogen.unit = "";
  bay.stations().columns = {{"value", "DIN (mmol/m3)"}};
  bay.opener.texts["s.csv"].replace(13, 5, "DIN (mmol/m3)");
  CHECK(*nitrogen(*bay.open()).error == 0.5);
  bay.stations().columns = {{"value", "DIN (ug/L as N)"}};
  bay.opener.texts["s.csv"].replace(13, 13, "DIN (ug/L as N)");
  CHECK(*nitrogen(*bay.open()).error == Approx(0.5 / 14.007));
}

TEST_CASE("coarse blocks leave no water unknown along the shores") {
  Case bay;
  bay.plan.area.cell_m = 2.0;  // 840 x 556 cells: blocks
  const auto layers = bay.open();
  CHECK_THAT(nitrogen(*layers).basis, Contains("cells a side"));
  CHECK(nitrogen(*layers).cover == 1.0);
  CHECK(double{at(*layers, -30.0115, 41.008)} == Approx(10.0).margin(1.0));
}

TEST_CASE("a station ashore counts for the water beside it, one far off is left out and named") {
  Case bay;
  bay.opener.texts["s.csv"] =
      "lon,lat,date,value,station\n-30.0130,41.009,2021-06-10,10,bay\n"
      "-30.0102,41.009,2021-06-10,20,pier\n-30.5,41.009,2021-06-10,90,far\n";
  const auto layers = bay.open();
  CHECK(warns(*layers,
              "1 place farther than 250 m (snap_m) from the water of the area left out: far"));
  CHECK(double{at(*layers, -30.0115, 41.009)} > 15.0);

  bay.stations().snap_m = 5.0;
  CHECK(warns(*bay.open(), "left out: far, pier"));
  bay.opener.texts["s.csv"] = "lon,lat,date,value\n-30.0102,41.009,2021-06-10,20\n";
  CHECK_THAT(failure(bay), Contains("no station lies within 5 m of water"));
  bay.opener.texts["s.csv"] =
      "lon,lat,date,value\n30.0002,41.009,2021-06-10,20\n30.02,41.001,2021-06-10,20\n";
  CHECK_THAT(failure(bay), Contains("a longitude's minus sign looks lost"));
}

TEST_CASE("Secchi depths of stations become attenuation after they are spread") {
  Case bay;
  bay.plan.light.quantity = Quantity::secchi;
  bay.plan.light.source = bay.plan.nitrogen.source;
  bay.plan.light.unit = "m";
  bay.plan.nitrogen = {Quantity::nitrogen, "water.nitrogen", 5.0, "umol/L", std::nullopt};
  bay.opener.texts["s.csv"] = "lon,lat,date,value\n-30.0130,41.009,2021-06-10,2\n";
  const auto layers = bay.open();
  CHECK(layers->sample({3, 3, 1, 1}).attenuation.month[0][0] == 0.72F);
  bay.plan.light_relation.secchi = SecchiRelation::poole_atkins_1929;
  CHECK(bay.open()->sample({3, 3, 1, 1}).attenuation.month[0][0] == 0.85F);
}

TEST_CASE("turbidity becomes attenuation by the plan's two numbers") {
  Case bay;
  bay.plan.light = {Quantity::turbidity, "water.light", 4.0, "NTU", std::nullopt};
  bay.plan.light_relation.turbidity_intercept = 0.4;
  bay.plan.light_relation.turbidity_slope = 0.1;
  CHECK(bay.open()->sample({3, 3, 1, 1}).attenuation.month[0][0] == Approx(0.8F));
}

TEST_CASE("nitrate and ammonium apart make the nitrogen and its ammonium, each in its unit") {
  Case bay;
  bay.plan.nitrate = bay.plan.nitrogen;
  bay.plan.nitrate->key = "water.nitrogen.nitrate";
  bay.opener.texts["s.csv"] = "lon,lat,date,value\n-30.0130,41.009,2021-06-10,6\n";
  bay.plan.ammonium = {Quantity::nitrogen, "water.nitrogen.ammonium", 0.036078, "mg/L as NH4",
                       std::nullopt};
  const auto layers = bay.open();
  const TileLayers tile = layers->sample({3, 3, 1, 1});
  CHECK(tile.nitrogen.month[6][0] == Approx(8.0F));
  CHECK(tile.ammonium.month[0][0] == Approx(2.0F));
  for (const LayerReport& report : layers->reports()) {
    if (report.key == "water.nitrogen.nitrate") {
      CHECK(report.low == Approx(6.0));
      CHECK(report.cover == 1.0);
    }
  }
}

TEST_CASE("amounts per kilogram take the density of the cell's own water") {
  Case bay;
  bay.plan.nitrogen.unit = "umol/kg";
  bay.opener.texts["s.csv"] = "lon,lat,date,value\n-30.0130,41.009,2021-06-10,100\n";
  bay.plan.salinity.source = 30.0;
  bay.plan.temperature.source = 20.0;
  CHECK(bay.open()->sample({3, 3, 1, 1}).nitrogen.month[0][0] == Approx(102.095388F));
  bay.plan.nitrogen.source = 100.0;
  CHECK(bay.open()->sample({3, 3, 1, 1}).nitrogen.month[0][0] == Approx(102.095388F));
}

TEST_CASE("attenuation at 490 nm does not pass for that of PAR") {
  Case bay;
  bay.plan.nitrogen = {Quantity::nitrogen, "water.nitrogen", 5.0, "umol/L", std::nullopt};
  bay.plan.light.source = file("kd.nc");
  const auto raster = [](float value) {
    auto flat = twins::raster(20, 12, 1, -30.03, 41.017, 0.002, -0.002,
                              std::vector<float>(std::size_t{20 * 12}, value));
    RasterInfo info = flat->info();
    info.long_name = "diffuse attenuation coefficient at 490 nm";
    return std::make_unique<MemoryRaster>(
        info, std::make_shared<const std::vector<float>>(std::size_t{20 * 12}, value));
  };
  bay.opener.rasters["kd.nc"] = raster(0.1F);
  CHECK_THAT(failure(bay), Contains("kd.nc: says of itself that it is the attenuation at 490 nm"));
  bay.plan.light_relation.kd490 = true;
  const auto layers = bay.open();
  CHECK(layers->sample({3, 3, 1, 1}).attenuation.month[0][0] == Approx(0.1611F));
  CHECK(warns(*layers, "relation of clear ocean water"));
  bay.opener.rasters["kd.nc"] = raster(2.0F);  // a brown bay
  CHECK_THAT(failure(bay), Contains("0.0166 to 0.6 1/m is believed"));
  bay.plan.light.source = 2.0;
  CHECK_THAT(failure(bay, Fault::plan), Contains("from 0.0166 to 0.6 1/m only"));
}

TEST_CASE("land that the plan gives as shapes parts the water, too") {
  Case bay;
  std::vector<float> deep(std::size_t{200 * 120}, 6.0F);
  bay.opener.rasters["depth.tif"] =
      twins::raster(200, 120, 1, -30.03, 41.017, 0.0002, -0.0002, std::move(deep));
  CHECK(double{at(*bay.open(), -30.0115, 41.008)} > 11.0);  // the other station is 400 m off
  FeatureLayer shapes;
  Polygon wall;
  for (const XY corner : {XY{-30.0112, 41.003}, XY{-30.0088, 41.003}, XY{-30.0088, 41.02},
                          XY{-30.0112, 41.02}, XY{-30.0112, 41.003}}) {
    wall.outer.push_back(twins::to_local(corner));
  }
  Feature feature;
  feature.shape.polygons.push_back(std::move(wall));
  shapes.features.push_back(std::move(feature));
  bay.opener.features["land.gpkg"] = std::move(shapes);
  bay.plan.land = LandPlan{file("land.gpkg"), "", false};
  CHECK(double{at(*bay.open(), -30.0115, 41.008)} < 10.6);
}

TEST_CASE("without a depth that can be read, stations wait for it") {
  Case bay;
  bay.opener.rasters.clear();
  std::vector<Error> problems;
  const auto layers = open_layers(bay.plan, bay.opener, &problems);
  CHECK(problems.size() == 1);
  CHECK_THAT(nitrogen(*layers).verdict, Contains("the depth is to be mended first"));
}

TEST_CASE("nitrate by month and ammonium by day do not make nitrogen") {
  Case bay;
  bay.plan.nitrate = bay.plan.nitrogen;
  bay.plan.nitrate->key = "water.nitrogen.nitrate";
  bay.plan.ammonium = bay.plan.nitrogen;
  bay.plan.ammonium->key = "water.nitrogen.ammonium";
  bay.plan.ammonium->source = file("days.nc");
  const auto flat =
      twins::raster(4, 4, 1, -30.03, 41.02, 0.01, -0.01, std::vector<float>(16, 2.0F));
  RasterInfo info = flat->info();
  info.bands = kDaysPerYear;
  for (int day = 1; day <= kDaysPerYear; ++day) {
    info.steps.push_back({2001, month_of(day), day, day});
  }
  bay.opener.rasters["days.nc"] = std::make_unique<MemoryRaster>(
      info, std::make_shared<const std::vector<float>>(std::size_t{16} * kDaysPerYear, 2.0F));
  CHECK_THAT(failure(bay, Fault::plan),
             Contains("water.nitrogen.ammonium: is given by day and nitrate by month"));
  bay.plan.ammonium->steps = WaterPlan::Steps::monthly;
  CHECK(at(*bay.open(), -30.0115, 41.008) > 11.0F);
}

TEST_CASE("stations that lie inland cast doubt on the sign of the depths; piers do not") {
  Case bay;
  bay.stations().snap_m = 300.0;
  CHECK_FALSE(warns(*bay.open(), "upside down"));
  bay.opener.texts["s.csv"] = "lon,lat,date,value\n-30.0100,41.009,2021-06-10,10\n";
  CHECK(warns(*bay.open(), "stations of water.nitrogen"));
  bay.opener.texts["s.csv"] = "lon,lat,date,value\n-30.0110,41.009,2021-06-10,10\n";
  CHECK_FALSE(warns(*bay.open(), "upside down"));  // on the wall, a cell from the water
}
