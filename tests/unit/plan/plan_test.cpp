// SPDX-License-Identifier: Apache-2.0
// Plans that hold: what they are read as.
#include "tidelot/plan/plan.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "support/source_folder.hpp"
#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"
#include "unit/plan/plan_text.hpp"

using namespace tidelot;
using testing::kSmallest;
using testing::plus;
using testing::with;

namespace {

Plan parsed(const std::string& text) {
  INFO(text);
  return parse_plan(text, "/bays/heron/plan.toml");
}

/// The plan file of the design with every key that is built so far.
const std::string kWhole = R"(
title = "Heron Bight, summer"
[area]
bounds  = [-30.10, 41.00, -30.02, 41.06]
outline = "bay.geojson"
cell_m  = 10.0
crs     = "auto"
[depth]
file        = "depth.tif"
positive    = "down"
unit        = "m"
datum       = "MLLW"
low_water_m = 0.0
tidal_range_m = 2.1
lowest_tide_m = -0.4
[water.temperature]
file  = "temperature.nc"
variable = "sst"
unit  = "degC"
error = 0.8
[water.salinity]
monthly = [29,28.5,28,27,27.5,28,29,29.5,30,30,29.5,29]
[water.light]
measure = "kd"
file    = "kd_{month}.tif"
[water.nitrogen]
file = "din.tif"
unit     = "umol/L"
[water.current]
constant = 0.15
[season]
gear_in  = "05-01"
gear_out = "11-15"
daily = "mean"
[sun]
sunshine = 0.5
[[closed]]
name      = "eelgrass beds"
file      = "closed.gpkg"
layer     = "eelgrass"
where     = "status = 'mapped'"
setback_m = 30.0
effect    = "close"
rule      = "authority, section, date"
[crop]
profile = "warm-red-alga"
[farm]
line_depth_m = 1.0
line_gap_m   = 6.0
margin_m     = 15.0
scope        = 3.0
sag_m = 0.3
hang_m = 0.5
clearance_m = 1.0
stocking_g_per_m = 100.0
bundle_m     = 0.15
harvest_days = 14
outplant = "auto"
use      = "nutrient"
[criteria.growth]
curve  = [[0,0],[2,1]]
weight = 2
[criteria.depth]
curve  = [[3,0],[5,1],[15,1],[30,0]]
weight = 1
[criteria.current]
curve  = [[0.02,0],[0.10,1],[0.30,1],[0.75,0.3],[1.0,0]]
weight = 1
[sites]
count = 10
shape = "box"
area_ha = 1.2
length_to_width = 3.0
along = "current"
gap_m = 100.0
min_suitability = 0.3
landing = [-30.05, 41.05]
own_corners = [[[-30.06, 41.03], [-30.058, 41.03], [-30.058, 41.029], [-30.06, 41.029]],
               [[-30.05, 41.04], [-30.05, 41.042], [-30.048, 41.041], [-30.049, 41.04]]]
[uncertainty]
draws = 100
seed  = 7
length_m = 2000
[report]
applicant = ""
waterbody = "Heron Bight"
marker_gap_m = 90
units = "both"
)";

const ResolvedKey* find(const Plan& plan, const std::string& key) {
  const auto found = std::find_if(plan.keys.begin(), plan.keys.end(),
                                  [&](const ResolvedKey& k) { return k.key == key; });
  return found == plan.keys.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("The whole plan file is read") {
  const Plan plan = parsed(kWhole);
  CHECK(plan.title == "Heron Bight, summer");
  CHECK(plan.path == "/bays/heron/plan.toml");
  CHECK(plan.area.has_bounds);
  CHECK(plan.area.west == -30.10);
  CHECK(plan.area.south == 41.00);
  CHECK(plan.area.east == -30.02);
  CHECK(plan.area.north == 41.06);
  CHECK(plan.area.outline->path == "/bays/heron/bay.geojson");
  CHECK(plan.area.cell_m == 10.0);
  CHECK(plan.area.crs == "auto");
  CHECK(plan.depth.file.written == "depth.tif");
  CHECK(plan.depth.positive == Positive::down);
  CHECK(plan.depth.unit == "m");
  CHECK(plan.depth.datum == "MLLW");
  CHECK(std::get<double>(plan.depth.low_water) == 0.0);
  CHECK(plan.depth.tidal_range_m == 2.1);
  CHECK(plan.depth.lowest_tide_m == -0.4);
  CHECK(plan.season.gear_in == 121);
  CHECK(plan.season.gear_out == 319);
  CHECK(plan.season.daily == SeasonPlan::Daily::mean);
  CHECK(std::get<double>(plan.sun.source) == 0.5);
  CHECK(plan.crop.name == "warm-red-alga");
  CHECK(plan.sites.landing == LonLat{-30.05, 41.05});
  REQUIRE(plan.sites.own_boxes.size() == 2);
  CHECK(plan.sites.own_boxes[0][2] == LonLat{-30.058, 41.029});
  CHECK(plan.sites.own_boxes[1][1] == LonLat{-30.05, 41.042});
  CHECK(plan.uncertainty.draws == 100);
  CHECK(plan.uncertainty.seed == 7);
  CHECK(plan.uncertainty.length_m == 2000.0);
  CHECK(plan.report.waterbody == "Heron Bight");
  CHECK(plan.report.units == ReportPlan::Units::both);
  CHECK(plan.warnings == std::vector<std::string>{});
}

TEST_CASE("The water's properties keep their source, unit and error") {
  const Plan plan = parsed(kWhole);
  const auto& temperature = std::get<FileRef>(plan.temperature.source);
  CHECK(temperature.path == "/bays/heron/temperature.nc");
  CHECK(temperature.written == "temperature.nc");
  CHECK(temperature.variable == "sst");
  CHECK(plan.temperature.key == "water.temperature");
  CHECK(plan.temperature.error == 0.8);
  CHECK(std::get<Monthly>(plan.salinity.source)[3] == 27.0);
  CHECK(std::get<Monthly>(plan.salinity.source)[11] == 29.0);
  CHECK(plan.salinity.unit.empty());
  CHECK_FALSE(plan.salinity.error);
  CHECK(plan.light.quantity == Quantity::attenuation);
  CHECK(std::get<FileRef>(plan.light.source).path == "/bays/heron/kd_{month}.tif");
  CHECK(plan.nitrogen.unit == "umol/L");
  CHECK(plan.nh4_share == 0.4);
  CHECK(std::get<double>(plan.current.source) == 0.15);
}

TEST_CASE("A file may say the unit of its nitrogen itself") {
  const Plan plan = parsed(with("constant = 5, unit = \"umol/L\"", "file = \"n.nc\""));
  CHECK(plan.nitrogen.unit.empty());
  CHECK(std::get<FileRef>(plan.nitrogen.source).written == "n.nc");
}

TEST_CASE("Closed areas are read in plan order") {
  const Plan plan = parsed(kWhole +
                           "[[closed]]\nname = \"dock\"\nfile = \"/charts/dock.gpkg\"\n"
                           "effect = \"caution\"\n[run]\nallow = [\"outside\"]\n");
  REQUIRE(plan.closed.size() == 2);
  CHECK(plan.closed[0].name == "eelgrass beds");
  CHECK(plan.closed[0].file.layer == "eelgrass");
  CHECK(plan.closed[0].where == "status = 'mapped'");
  CHECK(plan.closed[0].setback_m == 30.0);
  CHECK_FALSE(plan.closed[0].caution);
  CHECK(plan.closed[0].rule == "authority, section, date");
  CHECK(plan.closed[1].file.path == "/charts/dock.gpkg");
  CHECK(plan.closed[1].caution);
  CHECK(plan.closed[1].setback_m == 0.0);
  CHECK(plan.closed[1].rule.empty());
}

TEST_CASE("What is left out takes the default") {
  const Plan plan = parsed(kSmallest);
  const FarmPlan farm;
  CHECK(plan.farm.fixed_line == farm.fixed_line);
  CHECK(plan.boundary_layer == BoundaryLayer::current);
  CHECK(plan.farm.line_depth_m == farm.line_depth_m);
  CHECK(plan.farm.line_gap_m == farm.line_gap_m);
  CHECK(plan.farm.margin_m == farm.margin_m);
  CHECK(plan.farm.scope == farm.scope);
  CHECK(plan.farm.sag_m == farm.sag_m);
  CHECK(plan.farm.hang_m == farm.hang_m);
  CHECK(plan.farm.clearance_m == farm.clearance_m);
  CHECK(plan.farm.stocking_g_per_m == farm.stocking_g_per_m);
  CHECK(plan.farm.bundle_m == farm.bundle_m);
  CHECK(plan.farm.harvest_days == farm.harvest_days);
  CHECK_FALSE(plan.farm.outplant);
  CHECK_FALSE(plan.farm.last_haul);
  CHECK_FALSE(plan.farm.food);
  const SitesPlan sites;
  CHECK(plan.sites.count == sites.count);
  CHECK(plan.sites.line == sites.line);
  CHECK(plan.sites.area_ha == sites.area_ha);
  CHECK(plan.sites.length_to_width == sites.length_to_width);
  CHECK(plan.sites.gap_m == sites.gap_m);
  CHECK(plan.sites.min_suitability == sites.min_suitability);
  CHECK_FALSE(plan.sites.landing);
  CHECK(plan.sites.own_boxes.empty());
  CHECK(plan.depth.tidal_range_m == 2.1);
  CHECK(plan.depth.lowest_tide_m == -0.4);
  CHECK(plan.report.marker_gap_m == 90.0);
  CHECK(plan.report.waterbody.empty());
  CHECK(plan.uncertainty.draws == 64);
  CHECK(plan.uncertainty.seed == 1);
  CHECK_FALSE(plan.uncertainty.length_m);
  CHECK(plan.depth.error_m == 0.3);
  CHECK(plan.closed.empty());
  CHECK_FALSE(plan.season.gear_in);
}

TEST_CASE("Without [criteria] growth, depth and current count, growth twice") {
  const Plan plan = parsed(kSmallest);
  REQUIRE(plan.criteria.size() == 3);
  CHECK(plan.criteria[0].name == "growth");
  CHECK(plan.criteria[0].weight == 2.0);
  CHECK(plan.criteria[0].curve == Curve({{0, 0}, {2, 1}}));
  CHECK(plan.criteria[1].name == "depth");
  CHECK(plan.criteria[1].weight == 1.0);
  CHECK(plan.criteria[1].curve == Curve({{3, 0}, {5, 1}, {15, 1}, {30, 0}}));
  CHECK(plan.criteria[2].name == "current");
  CHECK(plan.criteria[2].weight == 1.0);
  CHECK(plan.criteria[2].curve == Curve({{0.02, 0}, {0.10, 1}, {0.30, 1}, {0.75, 0.3}, {1.0, 0}}));
}

TEST_CASE("A plan with any criteria uses only those, each with its own defaults") {
  const Plan plan = parsed(plus(
      "[criteria.zostera]\nfile = \"z.tif\"\nvariable = \"v\"\nunit = \"%\"\ncurve = [[0, 1], [9, "
      "0]]\n"
      "[criteria.depth]\nweight = 3\n"
      "[criteria.fetch]\nfile = \"f.tif\"\ncurve = [[5, 1], [5, 0.5], [10, 0]]\nweight = 0\n"
      "[criteria.access]\ncurve = [[5, 1], [18, 0]]\n[sites]\nlanding = [-30.05, 41.05]\n"));
  REQUIRE(plan.criteria.size() == 4);
  CHECK(plan.criteria[0].name == "depth");
  CHECK(plan.criteria[0].weight == 3.0);
  CHECK(plan.criteria[0].curve == Curve({{3, 0}, {5, 1}, {15, 1}, {30, 0}}));
  CHECK_FALSE(plan.criteria[0].file);
  CHECK(plan.criteria[1].name == "access");
  CHECK(plan.criteria[1].weight == 1.0);
  CHECK(plan.criteria[2].name == "zostera");
  CHECK(plan.criteria[2].unit == "%");
  CHECK(plan.criteria[2].weight == 1.0);
  CHECK(plan.criteria[2].file->path == "/bays/heron/z.tif");
  CHECK(plan.criteria[2].file->variable == "v");
  CHECK(plan.criteria[3].name == "fetch");
  CHECK(plan.criteria[3].curve(5) == 0.5);
}

TEST_CASE("An integer is good wherever a number is, and a whole float where an integer is") {
  const Plan plan =
      parsed(with("cell_m = 10.0", "cell_m = 10") + "[farm]\nharvest_days = 21.0\nscope = 4\n");
  CHECK(plan.area.cell_m == 10.0);
  CHECK(plan.farm.harvest_days == 21);
  CHECK(plan.farm.scope == 4.0);
}

TEST_CASE("An outline may stand for the bounds") {
  const Plan plan = parsed(with("bounds = [-30.10, 41.00, -30.02, 41.06]", "outline = \"o.gpkg\""));
  CHECK_FALSE(plan.area.has_bounds);
  CHECK(plan.area.outline->written == "o.gpkg");
}

TEST_CASE("Bounds may be as wide as 20 degrees and touch the poles and the antimeridian") {
  const std::string old = "[-30.10, 41.00, -30.02, 41.06]";
  CHECK(parsed(with(old, "[160, -90, 180, 90]")).area.east == 180.0);
}

TEST_CASE("Datums of low water are known by their common names") {
  for (const char* datum :
       {"MLLW", "mllw", "MLW", "LAT", "chart datum", "Chart  Datum", " lat ",
        "Lowest Astronomical Tide", "mean lower low water", "mean low water", "Low Water"}) {
    INFO(datum);
    CHECK(is_low_water_datum(datum));
  }
  for (const char* datum :
       {"", "MSL", "NAVD88", "MHW", "low water springs?", "MLLWX", "highwater"}) {
    INFO(datum);
    CHECK_FALSE(is_low_water_datum(datum));
  }
}

TEST_CASE("Low water from another datum is a number or a raster") {
  const Plan number = parsed(with("\"MLLW\"", "\"MSL\"\nlow_water_m = -1.1"));
  CHECK(std::get<double>(number.depth.low_water) == -1.1);
  const Plan raster = parsed(with("\"MLLW\"", "\"MSL\"\nlow_water_m = \"lw.tif\""));
  CHECK(std::get<FileRef>(raster.depth.low_water).path == "/bays/heron/lw.tif");
}

TEST_CASE("Light may be a Secchi depth") {
  const Plan plan =
      parsed(with("constant = 0.8", "constant = 150, unit = \"cm\", measure = \"secchi\""));
  CHECK(plan.light.quantity == Quantity::secchi);
  CHECK(std::get<double>(plan.light.source) == 150.0);
  CHECK(plan.light.unit == "cm");
}

TEST_CASE("Values are checked after conversion, and kept in the plan's unit") {
  const Plan plan = parsed(with("constant = 20", "constant = 293.15, unit = \"K\""));
  CHECK(std::get<double>(plan.temperature.source) == 293.15);
  CHECK(plan.temperature.unit == "K");
}

TEST_CASE("The sun is one share, twelve, or a layer") {
  const Plan twelve =
      parsed(plus("[sun]\nsunshine = [0.4,0.4,0.5,0.5,0.5,0.6,0.6,0.6,0.5,0.5,0.4,0]\n"));
  CHECK(std::get<Monthly>(twelve.sun.source)[11] == 0.0);
  const Plan layer =
      parsed(plus("[sun]\nfile = \"r.nc\"\nvariable = \"rsds\"\nunit = \"W m-2\"\n"));
  CHECK(std::get<FileRef>(layer.sun.source).variable == "rsds");
  CHECK(layer.sun.unit == "W m-2");
  CHECK(find(layer, "sun.sunshine") == nullptr);
}

TEST_CASE("Days of the crop and of the permit's window, over the new year too") {
  const Plan plan =
      parsed(plus("[season]\ngear_in = \"10-01\"\ngear_out = \"06-01\"\ndaily = "
                  "\"linear\"\n[farm]\noutplant = \"11-01\"\nlast_haul = \"05-15\"\nuse "
                  "= \"food\"\n"));
  CHECK(plan.season.gear_in == 274);
  CHECK(plan.season.gear_out == 152);
  CHECK(plan.season.daily == SeasonPlan::Daily::linear);
  CHECK(plan.farm.outplant == 305);
  CHECK(plan.farm.last_haul == 135);
  CHECK(plan.farm.food);
}

TEST_CASE("A name with a colon is a plain file once a folder stands before it") {
  const Plan plan = parsed(with("depth.tif", "./NETCDF:depth 12:30.nc"));
  CHECK(plan.depth.file.path == "/bays/heron/./NETCDF:depth 12:30.nc");
}

TEST_CASE("The keys in force say what was given and what was assumed") {
  const Plan plan =
      parsed(plus("[farm]\nscope = 4\n[[closed]]\nname = \"a \\\"b\\\"\"\nfile = "
                  "\"a.gpkg\"\n"));
  const ResolvedKey* scope = find(plan, "farm.scope");
  REQUIRE(scope);
  CHECK(scope->given);
  CHECK(scope->value == "4");
  CHECK(scope->basis.empty());
  const ResolvedKey* gap = find(plan, "farm.line_gap_m");
  REQUIRE(gap);
  CHECK_FALSE(gap->given);
  CHECK(gap->value == "6");
  CHECK(gap->basis == "common practice, no source");
  REQUIRE(find(plan, "closed[0].name"));
  CHECK(find(plan, "closed[0].name")->value == R"("a \"b\"")");
  CHECK(find(plan, "area.bounds")->value == "[-30.1, 41, -30.02, 41.06]");
  CHECK(find(plan, "water.light.unit")->value == "\"1/m\"");
  CHECK_FALSE(find(plan, "water.light.unit")->given);
  CHECK(find(plan, "criteria.growth.curve")->value == "[[0, 0], [2, 1]]");
  CHECK(find(plan, "area.outline") == nullptr);
}

TEST_CASE("Each key in force is listed once, in the order of the plan file") {
  const Plan plan = parsed(kWhole);
  std::vector<std::string> keys;
  for (const ResolvedKey& key : plan.keys) {
    INFO(key.key);
    CHECK(key.given == key.basis.empty());
    CHECK_FALSE(key.value.empty());
    CHECK(std::find(keys.begin(), keys.end(), key.key) == keys.end());
    keys.push_back(key.key);
  }
  const auto at = [&](const std::string& key) {
    const auto found = std::find(keys.begin(), keys.end(), key);
    REQUIRE(found != keys.end());
    return found - keys.begin();
  };
  CHECK(at("title") == 0);
  CHECK(at("area.bounds") < at("depth.file"));
  CHECK(at("depth.lowest_tide_m") < at("water.temperature.file"));
  CHECK(at("water.current.constant") < at("season.gear_in"));
  CHECK(at("sun.sunshine") < at("closed[0].name"));
  CHECK(at("closed[0].rule") < at("crop.profile"));
  CHECK(at("farm.use") < at("criteria.growth.curve"));
  CHECK(at("criteria.current.weight") < at("sites.count"));
  CHECK(at("sites.draft_m") < at("sites.own_corners"));
  CHECK(at("sites.own_corners") < at("uncertainty.draws"));
  CHECK(at("report.units") < at("run.allow"));
  CHECK(at("run.codec") + 1 == static_cast<std::ptrdiff_t>(keys.size()));
}

TEST_CASE("Tables may be written inline, with a byte order mark and with CRLF") {
  std::string crlf = "\xEF\xBB\xBF";
  for (const char c : kSmallest) {
    crlf += c == '\n' ? "\r\n" : std::string(1, c);
  }
  CHECK(parsed(crlf).title == "Heron Bight");
}

namespace {

/// The smallest plan with kelp, and more.
std::string kelp_plan(const std::string& more = "") {
  return with("\"warm-red-alga\"", "\"sugar-kelp\"") + more;
}

std::string refused(const std::string& text) {
  try {
    static_cast<void>(parse_plan(text, "plan.toml"));
    return "";
  } catch (const std::exception& error) {
    return error.what();
  }
}

}  // namespace

TEST_CASE("The crop profile states the growth curve where the plan does not") {
  const Plan kelp = parsed(kelp_plan());
  CHECK(kelp.criteria[0].curve == Curve({{0, 0}, {8, 1}}));
  const ResolvedKey* curve = find(kelp, "criteria.growth.curve");
  REQUIRE(curve);
  CHECK(curve->value == "[[0, 0], [8, 1]]");
  CHECK_FALSE(curve->given);
  CHECK_THAT(curve->basis, Catch::StartsWith("crop profile; judgement: published yields"));
  const Plan own = parsed(kelp_plan("[criteria.growth]\ncurve = [[1, 0], [5, 1]]\n"));
  CHECK(own.criteria[0].curve == Curve({{1, 0}, {5, 1}}));
  CHECK(find(own, "criteria.growth.curve")->given);
  CHECK(find(parsed(kSmallest), "criteria.growth.curve")->basis == "crop profile; judgement");
}

TEST_CASE("Kelp is stocked by the frond and hauled once: other keys are refused") {
  const Plan kelp = parsed(kelp_plan());
  CHECK(find(kelp, "farm.stocking_g_per_m") == nullptr);
  CHECK(find(kelp, "farm.harvest_days") == nullptr);
  CHECK(find(parsed(kSmallest), "farm.harvest_days") != nullptr);
  CHECK_THAT(refused(kelp_plan("[farm]\nstocking_g_per_m = 100\n")),
             Catch::Contains("farm.stocking_g_per_m has no meaning for sugar-kelp") &&
                 Catch::Contains("set fronds_per_m and start_area in [crop.set]"));
  CHECK_THAT(refused(kelp_plan("[farm]\nharvest_days = 14\n")),
             Catch::Contains("farm.harvest_days has no meaning for sugar-kelp"));
  CHECK(parsed(kelp_plan("[crop.set]\nfronds_per_m = 90\n")).crop.at("fronds_per_m") == 90.0);
  CHECK_THAT(refused(kelp_plan("[crop.set]\nfronds_per_m = 900\n")),
             Catch::Contains("crop.set.fronds_per_m must be a number from 20 to 150 1/m"));
  CHECK_THAT(refused(kelp_plan("[crop.set]\nw_max = 900\n")), Catch::Contains("crop.set.w_max"));
}

TEST_CASE("The edge rule and the land are read, and left out they are the default and none") {
  const Plan bare = parsed(kSmallest);
  CHECK(bare.area.edge == EdgeRule::half);
  CHECK_FALSE(bare.land);
  CHECK(parsed(with("cell_m = 10.0", "cell_m = 10.0\nedge = \"full\"")).area.edge ==
        EdgeRule::full);
  CHECK(parsed(with("cell_m = 10.0", "cell_m = 10.0\nedge = \"any\"")).area.edge == EdgeRule::any);
  const Plan plan =
      parsed(plus("[land]\nfile = \"shore.gpkg\"\nlayer = \"coast\"\n"
                  "where = \"kind = 1\"\ninside = \"water\"\n"));
  REQUIRE(plan.land);
  CHECK(plan.land->file.path == "/bays/heron/shore.gpkg");
  CHECK(plan.land->file.layer == "coast");
  CHECK(plan.land->where == "kind = 1");
  CHECK(plan.land->shapes_are_water);
  CHECK_FALSE(parsed(plus("[land]\nfile = \"shore.gpkg\"\n")).land->shapes_are_water);
}

namespace {

std::string judged(const std::string& list, const std::string& more = "") {
  return plus("[criteria.judgement]\ncompare = [" + list + "]\n" + more);
}

std::string refusal(const std::string& text) {
  try {
    (void)parse_plan(text, "/bays/heron/plan.toml");
  } catch (const Error& e) {
    return e.what();
  }
  return "no failure";
}

}  // namespace

TEST_CASE("Weights come from judgements in pairs, and the consistency ratio is kept") {
  const Plan plan = parsed(
      judged(R"(["growth", "depth", 3], ["growth", "current", 5], ["depth", "current", 3])"));
  REQUIRE(plan.criteria.size() == 3);
  CHECK(plan.criteria[0].weight == Approx(0.636986).margin(1e-6));
  CHECK(plan.criteria[1].weight == Approx(0.258285).margin(1e-6));
  CHECK(plan.criteria[2].weight == Approx(0.104729).margin(1e-6));
  const ResolvedKey* ratio = find(plan, "criteria.judgement.consistency_ratio");
  REQUIRE(ratio);
  CHECK_THAT(ratio->value, Catch::StartsWith("0.03319"));
  CHECK(find(plan, "criteria.growth.weight")->value == "0.636986");
}

TEST_CASE("Judgements that are incomplete or contradict each other are refused") {
  using Catch::Contains;
  CHECK_THAT(refusal(judged(R"(["growth", "depth", 3], ["growth", "current", 5])")),
             Contains("does not judge \"depth\" against \"current\""));
  CHECK_THAT(refusal(judged(R"(["growth", "depht", 3])")), Contains("\"depht\""));
  CHECK_THAT(refusal(judged(R"(["growth", "depth", 3], ["depth", "growth", 3])")),
             Contains("twice"));
  CHECK_THAT(refusal(judged(R"(["growth", "growth", 1])")), Contains("against itself"));
  CHECK_THAT(refusal(judged(R"(["growth", "depth", 12])")), Contains("0.111") && Contains("to 9"));
  const std::string circle =
      R"(["growth", "depth", 9], ["depth", "current", 9], ["current", "growth", 9])";
  CHECK_THAT(refusal(judged(circle)), Contains("contradicts itself") && Contains("accept_ratio"));
  CHECK(parsed(judged(circle, "accept_ratio = 10\n")).criteria[1].weight == Approx(1.0 / 3.0));
  CHECK_THAT(
      refusal(judged(R"(["growth", "depth", 3], ["growth", "current", 5], ["depth", "current", 3])",
                     "[criteria.growth]\nweight = 2\n[criteria.depth]\n[criteria.current]\n")),
      Contains("criteria.growth.weight"));
}

TEST_CASE("How the criteria combine is read; it names no criterion by itself") {
  CHECK(parsed(kSmallest).combine == Combine::geometric);
  const Plan plan = parsed(plus("[criteria]\ncombine = \"minimum\"\n"));
  CHECK(plan.combine == Combine::minimum);
  CHECK(plan.criteria.size() == 3);
  CHECK(parsed(plus("[criteria]\ncombine = \"both\"\n")).combine == Combine::both);
}

TEST_CASE("How lines hang and what slow water costs are read; other words are refused") {
  const std::string crop = with("profile = \"warm-red-alga\"",
                                "profile = \"warm-red-alga\"\nboundary_layer = \"mass_transfer\"");
  CHECK(parse_plan(crop, "p.toml").boundary_layer == BoundaryLayer::mass_transfer);
  CHECK(parse_plan(plus("[farm]\nline = \"fixed\"\n"), "p.toml").farm.fixed_line);
  CHECK_THROWS_WITH(parse_plan(plus("[farm]\nline = \"sunk\"\n"), "p.toml"),
                    Catch::Contains("farm.line") && Catch::Contains("floats"));
  CHECK_THROWS_WITH(parse_plan(with("profile = \"warm-red-alga\"",
                                    "profile = \"warm-red-alga\"\nboundary_layer = \"thick\""),
                               "p.toml"),
                    Catch::Contains("crop.boundary_layer"));
}

TEST_CASE(
    "A profile without the constants of mass transfer holds, and is refused where they count") {
  const test::TempFolder folder;
  std::string profile =
      test::bytes_of(test::source_folder() / "src/plan/profiles/warm-red-alga.toml");
  const std::size_t from = profile.find("[constants.branch_m]");
  const std::size_t to = profile.find("[constants.surface_m2_per_g]");
  std::ofstream(folder / "mine.toml") << profile.erase(from, to - from);
  const auto plan = [&](const std::string& layer) {
    return parse_plan(with("profile = \"warm-red-alga\"",
                           "profile = \"mine.toml\"\nboundary_layer = \"" + layer + "\""),
                      folder / "p.toml");
  };
  CHECK(plan("current").crop.name == "warm-red-alga");
  CHECK_THROWS_WITH(plan("mass_transfer"),
                    Catch::Contains("crop.boundary_layer") && Catch::Contains("needs branch_m"));
}

TEST_CASE("Stations are read with their keys and defaults") {
  const Plan plan = parsed(
      with("constant = 28",
           "stations = \"s.csv\", station_file = \"places.csv\", characteristic = \"Salinity\", "
           "nugget_m = 20, columns = { value = \"PSAL\", lon = \"X\" }"));
  const auto& stations = std::get<StationsRef>(plan.salinity.source);
  CHECK(stations.file.path == "/bays/heron/s.csv");
  CHECK(stations.station_file->written == "places.csv");
  CHECK(stations.characteristic == "Salinity");
  CHECK(stations.columns == std::map<std::string, std::string>{{"lon", "X"}, {"value", "PSAL"}});
  CHECK(stations.nugget_m == 20.0);
  CHECK(stations.power == 2.0);
  CHECK(stations.depth_max_m == 2.0);
  CHECK(stations.snap_m == 250.0);
}

TEST_CASE("The measure of light says how it becomes attenuation") {
  const Plan turbid =
      parsed(with("constant = 0.8",
                  "constant = 4, measure = \"turbidity\", turbidity_intercept = 0.4, "
                  "turbidity_slope = 0.1"));
  CHECK(turbid.light.quantity == Quantity::turbidity);
  CHECK(turbid.light_relation.turbidity_intercept == 0.4);
  CHECK(turbid.light_relation.turbidity_slope == 0.1);
  const Plan secchi = parsed(with(
      "constant = 0.8", "constant = 4, measure = \"secchi\", secchi_relation = \"devlin-2008\""));
  CHECK(secchi.light_relation.secchi == SecchiRelation::devlin_2008);
  CHECK(parsed(with("constant = 0.8", "constant = 0.2, measure = \"kd490\"")).light_relation.kd490);
}

TEST_CASE("Nitrate and ammonium are given apart, each with its own source") {
  const Plan plan =
      parsed(with("nitrogen = { constant = 5, unit = \"umol/L\" }",
                  "nitrogen.nitrate = { file = \"n.nc\" }\n"
                  "nitrogen.ammonium = { stations = \"a.csv\", unit = \"mg/L as NH4\", "
                  "columns = { value = \"NH4\" } }"));
  REQUIRE(plan.nitrate);
  REQUIRE(plan.ammonium);
  CHECK(std::get<FileRef>(plan.nitrate->source).written == "n.nc");
  CHECK(plan.nitrate->key == "water.nitrogen.nitrate");
  CHECK(plan.ammonium->unit == "mg/L as NH4");
  CHECK(std::get<StationsRef>(plan.ammonium->source).columns.at("value") == "NH4");
  CHECK_FALSE(parsed(kSmallest).nitrate);
}

TEST_CASE("Rules of some months, of columns, and of food crops only are read") {
  const std::string rule =
      "[[closed]]\nname = \"class\"\nfile = \"c.gpkg\"\nmonths = [5, 6, 12]\n"
      "setback_field = \"keep_m\"\nstatus_field = \"class\"\nonly_for = \"food\"\n";
  const ClosedPlan plain = parsed(plus(rule)).closed[0];
  CHECK(plain.months == ((1U << 4U) | (1U << 5U) | (1U << 11U)));
  CHECK(plain.setback_field == "keep_m");
  CHECK(plain.status_field == "class");
  CHECK_FALSE(plain.applies);
  CHECK_FALSE(plain.closes());
  CHECK(parsed(plus(rule + "[farm]\nuse = \"food\"\n")).closed[0].closes());
  CHECK(parsed(plus("[[closed]]\nname = \"a\"\nfile = \"c.gpkg\"\n")).closed[0].months == 0);
  CHECK_THROWS_AS(parsed(plus("[[closed]]\nname = \"a\"\nfile = \"c\"\nmonths = [0]\n")), Error);
  CHECK_THROWS_AS(parsed(plus("[[closed]]\nname = \"a\"\nfile = \"c\"\nmonths = []\n")), Error);
}

TEST_CASE("A test of what lies near takes its defaults, and each has its own name") {
  const std::string one =
      "[[near]]\nname = \"beaches\"\nfile = \"beach.gpkg\"\ndistance_m = 304.8\n";
  const Plan plan =
      parsed(plus(one + "[[near]]\nname = \"other licences\"\nfile = \"leases.gpkg\"\n"
                        "distance_m = 305\ncount = 3\neffect = \"close\"\nrule = \"2.7\"\n"));
  REQUIRE(plan.near.size() == 2);
  CHECK(plan.near[0].name == "beaches");
  CHECK(plan.near[0].distance_m == 304.8);
  CHECK(plan.near[0].count == 0);
  CHECK_FALSE(plan.near[0].closes);
  CHECK(plan.near[1].count == 3);
  CHECK(plan.near[1].closes);
  CHECK(plan.near[1].rule == "2.7");
  CHECK_THROWS_WITH(parsed(plus(one + one)),
                    Catch::Matchers::Contains("taken by another [[near]]"));
  CHECK_THROWS_WITH(parsed(plus("[[near]]\nname = \"a\"\nfile = \"b\"\n")),
                    Catch::Matchers::Contains("distance_m"));
}

TEST_CASE("Slope is the program's own measure, or with a file one of the user's") {
  const Plan built_in = parsed(plus("[criteria.slope]\n[criteria.depth]\n"));
  REQUIRE(built_in.criteria.size() == 2);
  CHECK(built_in.criteria[1].name == "slope");
  CHECK_FALSE(built_in.criteria[1].file);
  CHECK(built_in.criteria[1].curve(7.5) == 0.5);
  const Plan own = parsed(plus("[criteria.slope]\nfile = \"s.tif\"\ncurve = [[0, 1], [4, 0]]\n"));
  REQUIRE(own.criteria[0].file);
  CHECK(own.criteria[0].curve(2) == 0.5);
  CHECK_THROWS_WITH(parsed(plus("[criteria.slope]\nfile = \"s.tif\"\n")),
                    Catch::Matchers::Contains("needs a curve"));
  CHECK_THROWS_WITH(parsed(plus("[criteria.slope]\nunit = \"degrees\"\n")),
                    Catch::Matchers::Contains("goes with a file"));
}

TEST_CASE("Load and money are read; what a load does not say stays open") {
  const Plan plan = parsed(
      plus("[load]\nnitrogen_kg_per_year = 52000\nkind = \"total N\"\nsegment = \"inner bay\"\n"
           "period = \"mean of 2020 to 2024\"\nyear = 2024\ngoal_percent = 30\n"
           "residence_months = 0.5\n[money]\nper_line_m = 9.5\n"));
  REQUIRE(plan.load.has_value());
  CHECK(plan.load->nitrogen_kg_per_year == 52000.0);
  CHECK(plan.load->kind == "total N");
  CHECK(plan.load->segment == "inner bay");
  CHECK(plan.load->period == "mean of 2020 to 2024");
  CHECK(plan.load->year == 2024);
  CHECK(plan.load->goal_percent == 30.0);
  CHECK(plan.load->residence_months == 0.5);
  REQUIRE(plan.money.has_value());
  CHECK(plan.money->per_line_m == 9.5);
  CHECK(plan.money->per_year == 0.0);
  const Plan bare = parsed(plus("[load]\nnitrogen_kg_per_year = 52000\n"));
  CHECK(bare.load->kind.empty());
  CHECK_FALSE(bare.load->year.has_value());
  CHECK_FALSE(bare.load->goal_percent.has_value());
  CHECK_FALSE(parsed(kSmallest).load.has_value());
  CHECK_FALSE(parsed(kSmallest).money.has_value());
}

TEST_CASE("Positions are in WGS 84 unless NAD 83 is asked for; marks keep their order") {
  CHECK_FALSE(parsed(kSmallest).report.nad83);
  const Plan plan = parsed(
      plus("[report]\ndatum = \"NAD 83\"\n[[report.marks]]\nname = \"light\"\nat = [-30.05, 41]\n"
           "[[report.marks]]\nname = \"spire\"\nat = [-30.2, 41.1]\n"));
  CHECK(plan.report.nad83);
  REQUIRE(plan.report.marks.size() == 2);
  CHECK(plan.report.marks[1].name == "spire");
  CHECK(plan.report.marks[1].at == LonLat{-30.2, 41.1});
}
