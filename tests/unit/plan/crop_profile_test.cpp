// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/crop_profile.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <limits>
#include <sstream>

#include "tidelot/core/error.hpp"

using namespace tidelot;

namespace {

/// The built-in profile's text with one piece replaced; the piece must be there.
std::string changed(const std::string& from, const std::string& to) {
  std::ifstream file(TIDELOT_SOURCE_DIR "/src/plan/profiles/warm-red-alga.toml");
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
  CHECK(built_in_crops() == std::vector<std::string>{"warm-red-alga"});
  const Crop crop = built_in_crop("warm-red-alga");
  CHECK(crop.name == "warm-red-alga");
  CHECK(crop.constants.size() == 26);
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
  CHECK_THROWS_WITH(built_in_crop("x"), Catch::Contains("known: warm-red-alga"));
  CHECK_THROWS_AS(built_in_crop(""), Error);
}

TEST_CASE("unknown keys of a profile are refused where they stand") {
  CHECK(refusal(changed("[constants.q_min]", "[constants.q_mim]")) ==
        "my.toml:90:12: constants.q_mim: unknown key; did you mean 'q_min'?");
  CHECK_THAT(refusal(changed("unit = \"1/d\"", "units = \"1/d\"")),
             Catch::Contains("constants.mu_max_per_day.units: unknown key; did you mean 'unit'?"));
  CHECK_THAT(refusal(changed("title =", "titel =")), Catch::Contains("did you mean 'title'?"));
  CHECK_THAT(refusal(changed("points =", "colour = 1\npoints =")),
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
