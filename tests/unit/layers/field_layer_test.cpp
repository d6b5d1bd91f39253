// SPDX-License-Identifier: Apache-2.0
// Readings from the boat: what is read, how far it is from the layers, what it does to them.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "layers/field_correction.hpp"
#include "support/twins.hpp"
#include "tidelot/core/seawater.hpp"
#include "tidelot/layers/layer_set.hpp"

using namespace tidelot;
using Catch::Contains;

namespace {

const std::string kHead = "lon,lat,date,property,value,unit,visit\n";

FileRef file(const std::string& written) { return {"/plans/" + written, written, "", ""}; }

WaterPlan water(Quantity quantity, const std::string& name, double value,
                const std::string& unit = "") {
  WaterPlan out;
  out.quantity = quantity;
  out.key = "water." + name;
  out.source = value;
  out.unit = unit;
  return out;
}

/// Six metres of water, and land west of 30.018 W.
std::unique_ptr<MemoryRaster> bay() {
  std::vector<float> values;
  for (int row = 0; row < 120; ++row) {
    for (int col = 0; col < 200; ++col) {
      values.push_back(-30.03 + (col + 0.5) * 0.0002 < -30.018 ? -2.0F : 6.0F);
    }
  }
  return twins::raster(200, 120, 1, -30.03, 41.017, 0.0002, -0.0002, std::move(values));
}

struct Case {
  Plan plan;
  twins::MemoryOpener opener;
  explicit Case(const std::string& rows, FieldPlan::Apply apply = FieldPlan::Apply::confidence) {
    plan.area = {-30.02, 41.00, -30.00, 41.01, true, std::nullopt, 50.0, "local"};
    plan.depth.file = file("depth.tif");
    plan.depth.datum = "MLLW";
    plan.temperature = water(Quantity::temperature, "temperature", 18.0);
    plan.salinity = water(Quantity::salinity, "salinity", 28.0);
    plan.light = water(Quantity::attenuation, "light", 0.8);
    plan.nitrogen = water(Quantity::nitrogen, "nitrogen", 5.0, "umol/L");
    plan.current = water(Quantity::current, "current", 0.2);
    opener.rasters["depth.tif"] = bay();
    plan.field = FieldPlan{file("r.csv"), apply, 300.0};
    opener.texts["r.csv"] = kHead + rows;
  }
  std::unique_ptr<LayerSet> open() { return open_layers(plan, opener); }
};

TileLayers cell(LayerSet& layers, double lon, double lat) {
  const Cell at = layers.grid().cell_of(twins::to_local({lon, lat}));
  REQUIRE(layers.grid().holds(at));
  return layers.sample({at.col, at.row, 1, 1});
}

const LayerReport& row(const LayerSet& layers, const std::string& key) {
  for (const LayerReport& report : layers.reports()) {
    if (report.key == key) {
      return report;
    }
  }
  FAIL("no row of " << key);
  return layers.reports().front();
}

std::string warnings(const LayerSet& layers) {
  std::string all;
  for (const std::string& warning : layers.warnings()) {
    all += warning + "\n";
  }
  return all;
}

std::string failure(Case bay) {
  try {
    (void)bay.open();
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::input);
    return error.what();
  }
  FAIL("was not refused");
  return "";
}

}  // namespace

TEST_CASE("residuals are reading less layer, with count, bias and RMSE") {
  Case bay(
      "-30.010,41.005,2026-06-10,temperature,19.0,degC,a\n"
      "-30.008,41.005,2026-06-10,temperature,20.0,degC,a\n"
      "-30.010,41.005,2026-07-10,kd,1.0,,b\n"
      "-30.010,41.005,2026-07-10,depth_low_water,6.5,m,b\n");
  const auto layers = bay.open();
  const auto& found = layers->field_checks().residuals;
  REQUIRE(found.size() == 3);
  CHECK(found[0].property == "temperature");
  CHECK(found[0].count == 2);
  CHECK(found[0].bias == Approx(1.5));
  CHECK(found[0].rmse == Approx(std::sqrt((1.0 + 4.0) / 2.0)));
  CHECK(found[1].property == "kd");
  CHECK(found[1].bias == Approx(0.2).margin(1e-6));
  CHECK(found[2].property == "depth_low_water");
  CHECK(found[2].bias == Approx(0.5).margin(1e-6));
  CHECK(layers->field_checks().visits.size() == 4);
  CHECK_THAT(warnings(*layers), Contains("temperature: 2 readings, bias 1.500 degC (reading less "
                                         "layer), RMSE 1.581; values stay; the RMSE is kept"));
}

TEST_CASE("by default values stay and the RMSE is the error where the plan gives none") {
  Case bay(
      "-30.010,41.005,2026-06-10,temperature,19.0,degC,a\n"
      "-30.010,41.005,2026-06-10,salinity,30,psu,a\n");
  bay.plan.salinity.error = 0.7;
  const auto layers = bay.open();
  CHECK(cell(*layers, -30.010, 41.005).temperature.month[0][0] == 18.0F);
  CHECK(row(*layers, "water.temperature").error == Approx(1.0));
  CHECK_THAT(row(*layers, "water.temperature").error_basis, Contains("field readings, 1 value"));
  CHECK(row(*layers, "water.salinity").error == 0.7);
  CHECK(row(*layers, "water.salinity").error_basis == "from the plan");
  CHECK_THAT(warnings(*layers), Contains("the plan's error stays"));
}

TEST_CASE("a bias moves every cell and never below nothing") {
  Case bay(
      "-30.010,41.005,2026-06-10,temperature,15.5,degC,a\n"
      "-30.010,41.005,2026-06-10,current,10,cm/s,a\n"
      "-30.008,41.005,2026-06-10,current,0,cm/s,a\n"
      "-30.010,41.005,2026-06-10,depth_low_water,9,m,a\n",
      FieldPlan::Apply::bias);
  bay.plan.current.source = 0.1;
  const auto layers = bay.open();
  const TileLayers there = cell(*layers, -30.002, 41.009);
  CHECK(there.temperature.steady);
  CHECK(there.temperature.month[0][0] == 15.5F);
  CHECK(there.current.month[0][0] == Approx(0.05F));
  CHECK(there.depth_low_water[0] == 6.0F);
  CHECK(there.salinity.month[0][0] == 28.0F);
  CHECK_THAT(warnings(*layers), Contains("depths are compared only"));
  CHECK(row(*layers, "water.temperature").low == Approx(15.5));
  CHECK(cell(*layers->clone(), -30.002, 41.009).temperature.month[0][0] == 15.5F);

  Case still("-30.010,41.005,2026-06-10,nitrogen,0,umol/L,a\n", FieldPlan::Apply::bias);
  still.plan.nitrogen.source = Monthly{1, 1, 1, 1, 1, 5, 1, 1, 1, 1, 1, 1};
  const auto calm = still.open();
  CHECK(cell(*calm, -30.010, 41.005).nitrogen.month[5][0] == 0.0F);
  CHECK(cell(*calm, -30.010, 41.005).nitrogen.month[0][0] == 0.0F);  // 1 - 5
}

TEST_CASE("replacing gives the reading at its place and leaves far water to the bit") {
  Case bay("-30.0150,41.005,2026-06-10,temperature,20.5,degC,a\n", FieldPlan::Apply::replace);
  bay.plan.temperature.source = Monthly{4, 4, 6, 9, 13, 18.1, 21, 22, 19, 14, 9, 6};
  const auto layers = bay.open();
  CHECK(cell(*layers, -30.0150, 41.005).temperature.month[5][0] == Approx(20.5F));
  // January has no reading: the same residual, 2.4.
  CHECK(cell(*layers, -30.0150, 41.005).temperature.month[0][0] == Approx(6.4F));
  const float near = cell(*layers, -30.0135, 41.005).temperature.month[5][0];
  CHECK(near > 18.1F);
  CHECK(near < 20.5F);
  CHECK(cell(*layers, -30.0100, 41.005).temperature.month[5][0] == static_cast<float>(18.1));
  CHECK_THAT(warnings(*layers), Contains("fading to nothing at 300 m"));
  CHECK_THAT(warnings(*layers), Contains("no reading in Jan, "));
}

TEST_CASE("a layer that does not change over the year stays so when replaced") {
  Case bay(
      "-30.0150,41.005,2026-06-10,salinity,30,psu,a\n"
      "-30.0150,41.005,2026-08-10,salinity,31,psu,a\n",
      FieldPlan::Apply::replace);
  const TileLayers there = cell(*bay.open(), -30.0150, 41.005);
  CHECK(there.salinity.steady);
  CHECK(there.salinity.month[0][0] == Approx(30.5F));
}

TEST_CASE("ammonium keeps its share of the nitrogen that readings change") {
  Case bay("-30.010,41.005,2026-06-10,nitrogen,10,umol/L,a\n", FieldPlan::Apply::bias);
  bay.plan.nitrate = water(Quantity::nitrogen, "nitrogen.nitrate", 4.0, "umol/L");
  bay.plan.ammonium = water(Quantity::nitrogen, "nitrogen.ammonium", 1.0, "umol/L");
  const TileLayers there = cell(*bay.open(), -30.010, 41.005);
  CHECK(there.nitrogen.month[0][0] == Approx(10.0F));
  CHECK(there.ammonium.month[0][0] == Approx(2.0F));
}

TEST_CASE("nitrogen per kilogram is held against the layer by the water's density") {
  Case bay("-30.010,41.005,2026-06-10,nitrogen,5,umol/kg,a\n");
  const auto layers = bay.open();
  const double dense = 5.0 * seawater_density(28.0, 18.0) / 1000.0;
  REQUIRE(layers->field_checks().residuals.size() == 1);
  CHECK(layers->field_checks().residuals[0].bias == Approx(dense - 5.0).margin(1e-9));
}

TEST_CASE("Secchi depths become attenuation by the plan's relation") {
  Case bay("-30.010,41.005,2026-06-10,secchi,2,m,a\n");
  bay.plan.light_relation.secchi = SecchiRelation::poole_atkins_1929;
  const auto layers = bay.open();
  REQUIRE(layers->field_checks().residuals.size() == 1);
  CHECK(layers->field_checks().residuals[0].property == "kd");
  CHECK(layers->field_checks().residuals[0].bias == Approx(1.7 / 2.0 - 0.8).margin(1e-6));
}

TEST_CASE("a depth of the sample under another header is told") {
  Case bay("");
  bay.opener.texts["r.csv"] =
      "lon,lat,date,property,value,Depth_m\n-30.010,41.005,2026-06-10,temperature,19.0,15\n";
  CHECK_THAT(warnings(*bay.open()),
             Contains("field.readings: r.csv: columns not used: Depth_m; if one is the sample's "
                      "depth, rename it depth"));
}

TEST_CASE("two columns of one meaning are refused with what can be done") {
  Case twice("");
  twice.opener.texts["r.csv"] =
      "lon,long,lat,date,property,value\n-30.01,-30.01,41.005,2026-06-10,temperature,19.0\n";
  const std::string said = failure(std::move(twice));
  CHECK_THAT(said, Contains("two columns that may be the longitude, lon and long; rename one") &&
                       !Contains("columns."));
}

TEST_CASE("readings elsewhere are counted, said and left out") {
  Case bay(
      "-30.010,41.005,2026-06-10,temperature,19.0,degC,a\n"
      "-31.000,41.005,2026-06-10,temperature,19.0,degC,a\n"
      "-30.0195,41.005,2026-06-10,temperature,292,K,a\n"
      "-30.0195,41.005,2026-06-10,temperature,19,degC,a\n"
      "-30.010,41.005,,salinity,,psu,a\n"
      "-30.010,41.005,2026-06-10,salinity,3,m,a\n");
  const auto layers = bay.open();
  REQUIRE(layers->field_checks().residuals.size() == 1);
  CHECK(layers->field_checks().residuals[0].count == 1);
  const std::string all = warnings(*layers);
  CHECK_THAT(all, Contains("1 reading outside of the area left out"));
  CHECK_THAT(all, Contains("2 readings on what the layers call land left out"));
  CHECK_THAT(all, Contains("salinity: 1 row without a value left out (the first: row 6)"));
  CHECK_THAT(all, Contains("salinity: 1 row whose unit \"m\" is not one of salinity left out"));
}

TEST_CASE("where nothing can be compared nothing is done, and that is said") {
  Case bay("-31.000,41.005,2026-06-10,temperature,19.0,degC,a\n", FieldPlan::Apply::bias);
  const auto layers = bay.open();
  CHECK(layers->field_checks().residuals.empty());
  CHECK_THAT(warnings(*layers), Contains("nothing was done"));
  CHECK(cell(*layers, -30.010, 41.005).temperature.month[0][0] == 18.0F);
}

TEST_CASE("rows that cannot be read are refused with their number") {
  const std::string good = "-30.010,41.005,2026-06-10,temperature,19.0,degC,a\n";
  CHECK_THAT(failure(Case(good + "-30.010,41.005,10/06/2026,temperature,19,degC,a\n")),
             Contains("field.readings: r.csv: row 3: date \"10/06/2026\""));
  CHECK_THAT(failure(Case("-30.010,41.005,2026-06-10,oxygen,9,,a\n")),
             Contains("row 2: property \"oxygen\" is not one of temperature, salinity, kd, secchi, "
                      "nitrogen, current, depth_low_water"));
  CHECK_THAT(failure(Case("-30.010,41.005,2026-06-10,nitrogen,9,,a\n")),
             Contains("row 2: nitrogen has no usual unit"));
  CHECK_THAT(failure(Case("-30.010,41.005,2026-06-10,nitrogen,9,mg/L,a\n")),
             Contains("row 2: the unit \"mg/L\" does not say of what; write \"mg/L as N\""));
  CHECK_THAT(failure(Case("-30.010,41.005,2026-06-10,salinity,290,psu,a\n")),
             Contains("row 2: 290 psu is no salinity"));
  CHECK_THAT(failure(Case("-30.010,41.005,2026-06-10,salinity,x,psu,a\n")),
             Contains("row 2: value \"x\" is not a number"));
  CHECK_THAT(failure(Case("")), Contains("holds no reading below its header"));
  Case headless("");
  headless.opener.texts["r.csv"] = "lon,lat,date,value\n-30.010,41.005,2026-06-10,3\n";
  CHECK_THAT(failure(std::move(headless)), Contains("has no column property"));
}

TEST_CASE("a residual fades to nothing at the range") {
  CHECK(fade(0.0, 500.0) == 1.0);
  CHECK(fade(250.0, 500.0) == Approx(0.5625));
  CHECK(fade(500.0, 500.0) == 0.0);
  CHECK(fade(1e9, 500.0) == 0.0);
}
