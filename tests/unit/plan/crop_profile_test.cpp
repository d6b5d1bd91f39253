// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/crop_profile.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <limits>
#include <sstream>

#include "support/source_folder.hpp"
#include "tidelot/core/error.hpp"

using namespace tidelot;

namespace {

/// A built-in profile's text with one piece replaced; the piece must be there.
std::string changed(const std::string& from, const std::string& to,
                    const std::string& profile = "warm-red-alga") {
  std::ifstream file(test::source_folder() / "src/plan/profiles" / (profile + ".toml"));
  std::stringstream read;
  read << file.rdbuf();
  std::string text = read.str();
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

/// The message with which a profile is refused, "" when it is taken.
std::string refusal(const std::string& text) {
  try {
    static_cast<void>(parse_crop(text, "my.toml"));
    return "";
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::plan);
    return error.what();
  }
}

CropConstant& constant(Crop& crop, const std::string& name) {
  return *std::find_if(crop.constants.begin(), crop.constants.end(),
                       [&](const CropConstant& c) { return c.name == name; });
}

}  // namespace

TEST_CASE("the built-in profile holds its constants, each with range, unit and source") {
  CHECK(built_in_crops() == std::vector<std::string>{"sugar-kelp", "warm-red-alga"});
  const Crop crop = built_in_crop("warm-red-alga");
  CHECK(crop.name == "warm-red-alga");
  CHECK(crop.constants.size() == 28);
  CHECK(crop.at("mu_max_per_day") == 0.140);
  CHECK(crop.at("last_haul_temperature") == 13.0);
  for (const CropConstant& c : crop.constants) {
    INFO(c.name);
    CHECK(c.low <= c.value);
    CHECK(c.value <= c.high);
    CHECK_FALSE(c.unit.empty());
    CHECK_FALSE(c.source.empty());
  }
  CHECK(crop_fault(crop).empty());
}

TEST_CASE("the kelp holds its constants and curves, each with unit and source") {
  const Crop crop = built_in_crop("sugar-kelp");
  CHECK(crop.name == "sugar-kelp");
  CHECK(crop.model == GrowthModel::kelp_frond);
  CHECK(crop.season_rule == SeasonRule::cold);
  CHECK(crop.constants.size() == 43);
  for (const CropConstant& c : crop.constants) {
    INFO(c.name);
    CHECK(c.low <= c.value);
    CHECK(c.value <= c.high);
    CHECK_FALSE(c.unit.empty());
    CHECK_FALSE(c.source.empty());
  }
  CHECK_FALSE(crop.temperature_source.empty());
  CHECK(crop.growth(4.0) == 0.5);
  CHECK(crop_fault(crop).empty());
  CHECK(growth_range(crop).t_max == 19.0);
  CHECK(growth_range(crop).t_opt == 12.5);
  CHECK(std::isinf(growth_range(crop).t_min));
}

TEST_CASE("model, stocking, harvest and season rule are words that fit each other") {
  const Crop alga = built_in_crop("warm-red-alga");
  CHECK(alga.model == GrowthModel::fragmenting_alga);
  CHECK(alga.season_rule == SeasonRule::warm);
  CHECK(alga.growth(1.0) == 0.5);
  CHECK(growth_range(alga).t_opt == 25.0);
  CHECK_THAT(
      refusal(changed("\"fragmenting-alga\"", "\"alga\"")),
      Catch::Contains("model: must be \"fragmenting-alga\" or \"kelp-frond\", not \"alga\""));
  CHECK_THAT(refusal(changed("\"weight\"", "\"fronds\"")),
             Catch::Contains("stocking: must be \"weight\", not \"fronds\""));
  CHECK_THAT(refusal(changed("\"whole-frond\"", "\"cut-back\"", "sugar-kelp")),
             Catch::Contains("harvest: must be \"whole-frond\""));
  CHECK_THAT(refusal(changed("= \"cold\"", "= \"wet\"", "sugar-kelp")),
             Catch::Contains("season_rule: must be \"warm\" or \"cold\", not \"wet\""));
  CHECK_THAT(refusal(changed("season_rule = \"warm\"", "")),
             Catch::Contains("season_rule: must be given"));
  CHECK(refusal(changed("= \"warm\"", "= \"cold\"")).empty());
}

TEST_CASE("a temperature curve belongs to the kelp alone") {
  CHECK_THAT(
      refusal(changed("[growth]", "[temperature]\npoints = [[0, 1]]\nsource = \"x\"\n[growth]")),
      Catch::Contains("temperature: unknown key"));
  CHECK_THAT(refusal(changed("[temperature]", "[temperatur]", "sugar-kelp")),
             Catch::Contains("did you mean 'temperature'?"));
  CHECK_THAT(refusal(changed("[10, 1], [15, 1]", "[10, 1], [15, 3]", "sugar-kelp")),
             Catch::Contains("temperature.points: a factor lies between 0 and 1"));
  CHECK_THAT(refusal(changed("[[0, 0], [8, 1]]", "[]", "sugar-kelp")),
             Catch::Contains("growth.points: a curve needs"));
}

TEST_CASE("kelp constants that contradict each other are refused") {
  CHECK_THAT(refusal(changed("value = 0.022", "value = 0.009", "sugar-kelp")),
             Catch::Contains("constants.n_min: must be below n_max"));
  CHECK_THAT(refusal(changed("value = 0.018", "value = 0.03", "sugar-kelp")),
             Catch::Contains("constants.start_n: must lie between n_min and n_max"));
  CHECK_THAT(refusal(changed("value = 0.25", "value = 0.001", "sugar-kelp")),
             Catch::Contains("constants.start_c: must not be below c_min"));
  CHECK_THAT(refusal(changed("value = 0.00122", "value = 0.003", "sugar-kelp")),
             Catch::Contains("constants.p1: 0.003 must be below alpha i_sat/e"));
  CHECK_THAT(refusal(changed("[constants.k_dw]", "[constants.w_max]", "sugar-kelp")),
             Catch::Contains("constants.w_max: unknown key"));
}

TEST_CASE("a constant without a range has low and high at its value") {
  Crop crop = built_in_crop("warm-red-alga");
  CHECK(constant(crop, "vmax_nh4").low == 23.8);
  CHECK(constant(crop, "vmax_nh4").high == 23.8);
  CHECK(constant(crop, "k_nh4").low == 1.0);
  CHECK(constant(crop, "k_nh4").high == 5.0);
}

TEST_CASE("the salinity curve has the points of the profile and a source") {
  const Crop crop = built_in_crop("warm-red-alga");
  CHECK(crop.salinity(9.0) == 0.0);
  CHECK(crop.salinity(15.0) == Approx(0.35));
  CHECK(crop.salinity(20.0) == Approx(0.7));
  CHECK(crop.salinity(29.0) == 1.0);
  CHECK(crop.salinity(39.0) == Approx(0.5));
  CHECK(crop.salinity(46.0) == 0.0);
  CHECK_FALSE(crop.salinity_source.empty());
}

TEST_CASE("a name that is not built in is refused with the nearest") {
  CHECK_THROWS_WITH(built_in_crop("warm-red-algae"),
                    Catch::Contains("did you mean 'warm-red-alga'"));
  CHECK_THROWS_WITH(built_in_crop("x"), Catch::Contains("known: sugar-kelp, warm-red-alga"));
  CHECK_THROWS_AS(built_in_crop(""), Error);
}

TEST_CASE("unknown keys of a profile are refused where they stand") {
  CHECK(refusal(changed("[constants.q_min]", "[constants.q_mim]")) ==
        "my.toml:101:12: constants.q_mim: unknown key; did you mean 'q_min'?");
  CHECK_THAT(refusal(changed("unit = \"1/d\"", "units = \"1/d\"")),
             Catch::Contains("constants.mu_max_per_day.units: unknown key; did you mean 'unit'?"));
  CHECK_THAT(refusal(changed("title =", "titel =")), Catch::Contains("did you mean 'title'?"));
  CHECK_THAT(refusal(changed("[salinity]\n", "[salinity]\ncolour = 1\n")),
             Catch::Contains("salinity.colour: unknown key; remove it"));
}

TEST_CASE("a profile that lacks something says what and where") {
  CHECK_THAT(refusal(changed("value = 23.8", "")),
             Catch::StartsWith("my.toml:") && Catch::Contains("constants.vmax_nh4.value: must be"));
  CHECK_THAT(refusal(changed("unit = \"m/s\"", "")), Catch::Contains("constants.u0.unit: must be"));
  CHECK_THAT(refusal(changed("source = \"judgement, from nitrate", "source = \"\" # ")),
             Catch::Contains("constants.u0.source: must be given as text"));
  CHECK_THAT(refusal(changed("name  = \"warm-red-alga\"", "")), Catch::Contains("name: must be"));
  CHECK_THAT(refusal(changed("[constants.u0]\nvalue = 0.03\nunit = \"m/s\"\nsource", "source2")),
             Catch::Contains("source2"));
  CHECK_THAT(refusal(""), Catch::StartsWith("my.toml:"));
}

TEST_CASE("numbers of a profile are finite, in their range and of a possible sign") {
  CHECK_THAT(refusal(changed("value = 0.140", "value = 0.2")),
             Catch::Contains("constants.mu_max_per_day: 0.2 lies outside its range 0.1 to 0.19"));
  CHECK_THAT(refusal(changed("value = 23.8", "value = nan")),
             Catch::Contains("constants.vmax_nh4.value: must be a finite number"));
  CHECK_THAT(refusal(changed("value = 23.8", "value = \"23.8\"")),
             Catch::Contains("must be a finite number"));
  CHECK_THAT(refusal(changed("value = 23.8", "value = true")),
             Catch::Contains("must be a finite number"));
  CHECK_THAT(refusal(changed("value = 23.8", "value = -1")),
             Catch::Contains("constants.vmax_nh4: must not be negative"));
  CHECK_THAT(refusal(changed("value = 0.03", "value = 0")),
             Catch::Contains("constants.u0: must be above 0"));
  CHECK(refusal(changed("value = 2.0", "value = 2")).empty());
}

TEST_CASE("constants that contradict each other are refused") {
  // 20.9 is below the middle of 8 and 34.05, where the temperature curve loses its meaning
  CHECK_THAT(refusal(changed("value = 25\nlow = 23", "value = 20.9\nlow = 20")),
             Catch::Contains("constants.t_opt: 20.9 must lie above the middle"));
  CHECK_THAT(refusal(changed("value = 0.025", "value = 0.05")),
             Catch::Contains("constants.q_start: must lie between q_min and q_max"));
}

TEST_CASE("salinity points must make a curve") {
  const std::string points = "[[10, 0], [20, 0.7], [25, 1], [33, 1], [45, 0]]";
  CHECK_THAT(refusal(changed(points, "[]")), Catch::Contains("salinity.points: a curve needs"));
  CHECK_THAT(refusal(changed(points, "[[20, 0], [10, 1]]")), Catch::Contains("must rise in x"));
  CHECK_THAT(refusal(changed(points, "[[20, 0], [30]]")), Catch::Contains("each point is"));
  CHECK_THAT(refusal(changed(points, "[[20, 0], [30, 1.2]]")), Catch::Contains("between 0 and 1"));
  CHECK_THAT(refusal(changed(points, "3")), Catch::Contains("salinity.points: must be"));
}

TEST_CASE("text that is no TOML is refused in one line with its place") {
  const std::string line = refusal("name = \"x\"\nthis is not TOML");
  CHECK_THAT(line, Catch::StartsWith("my.toml:2:"));
  CHECK(line.find('\n') == std::string::npos);
}

TEST_CASE("a profile changed after it was read is checked again") {
  Crop crop = built_in_crop("warm-red-alga");
  constant(crop, "w_max").value = std::numeric_limits<double>::infinity();
  CHECK_THAT(crop_fault(crop), Catch::StartsWith("w_max: must be a finite number"));
  crop = built_in_crop("warm-red-alga");
  constant(crop, "t_max") = {"t_max", 45.0, 45.0, 45.0, "degC", "test"};
  CHECK_THAT(crop_fault(crop), Catch::StartsWith("t_opt: 25 must lie above the middle"));
  crop.constants.pop_back();
  CHECK(crop_fault(crop) == "last_haul_temperature: must be given");
}
