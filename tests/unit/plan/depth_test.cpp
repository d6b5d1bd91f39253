// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "plan_text.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/plan/plan.hpp"

using namespace tidelot;
using Catch::Contains;
using testing::with;

namespace {

Plan parsed(const std::string& text) { return parse_plan(text, "/bays/heron/plan.toml"); }

std::string failure(const std::string& text) {
  try {
    (void)parsed(text);
  } catch (const Error& e) {
    CHECK(e.fault() == Fault::plan);
    return e.what();
  }
  return "no failure";
}

/// A plan with two sources; each may say more.
std::string two(const std::string& common, const std::string& first = "",
                const std::string& second = "") {
  return with("file = \"depth.tif\"\npositive = \"down\"\ndatum = \"MLLW\"\n",
              common + "[[depth.sources]]\nname = \"survey\"\nfile = \"survey.xyz\"\n" + first +
                  "[[depth.sources]]\nname = \"chart\"\nfile = \"bay.000\"\n" + second);
}

const std::string kCommon = "positive = \"down\"\ndatum = \"MLLW\"\n";

}  // namespace

TEST_CASE("One file is the one source") {
  const Plan plan = parsed(testing::kSmallest);
  REQUIRE(plan.depth.sources().size() == 1);
  CHECK(plan.depth.sources()[0].key == "depth");
  CHECK(plan.depth.sources()[0].title() == "depth.tif");
  CHECK(plan.depth.several.empty());
}

TEST_CASE("Sources take from [depth] what they don't say themselves") {
  const Plan plan = parsed(
      two(kCommon + "unit = \"ft\"\n", "crs = \"EPSG:32626\"\nlongest_edge_m = 80\n",
          "layer = \"DEPARE\"\nunit = \"m\"\npositive = \"up\"\nfeather_m = 50\nfield = \"d\"\n"));
  const auto sources = plan.depth.sources();
  REQUIRE(sources.size() == 2);
  CHECK(sources[0].key == "depth.sources[0]");
  CHECK(sources[0].title() == "survey");
  CHECK(sources[0].unit == "ft");
  CHECK(sources[0].file.crs == "EPSG:32626");
  CHECK(sources[0].longest_edge_m == 80.0);
  CHECK(sources[0].feather_m == 0.0);
  CHECK(sources[0].positive == Positive::down);
  CHECK(sources[0].datum == "MLLW");
  CHECK(std::get<double>(sources[0].low_water) == 0.0);
  CHECK(sources[1].file.layer == "DEPARE");
  CHECK(sources[1].file.field == "d");
  CHECK(sources[1].unit == "m");
  CHECK(sources[1].positive == Positive::up);
  CHECK(sources[1].feather_m == 50.0);
  CHECK_FALSE(sources[1].longest_edge_m);
}

TEST_CASE("Depths from two zeros are mixed only where low water is said for each") {
  const std::string common = kCommon + "low_water_m = 0\n";
  const Plan plan = parsed(two(common, "datum = \"MSL\"\nlow_water_m = -1.1\n"));
  CHECK(std::get<double>(plan.depth.sources()[0].low_water) == -1.1);
  CHECK(std::get<double>(plan.depth.sources()[1].low_water) == 0.0);
  const Plan raster = parsed(two(common, "", "datum = \"MSL\"\nlow_water_m = \"lw.tif\"\n"));
  CHECK(std::get<FileRef>(raster.depth.sources()[1].low_water).written == "lw.tif");
  CHECK_THAT(failure(two(common, "datum = \"MSL\"\n")),
             Contains("depth.sources[0].low_water_m is missing") && Contains("MSL"));
  CHECK_THAT(failure(two(common, "", "datum = \"LAT\"\n")),
             Contains("depth.sources[1].low_water_m is missing"));
  CHECK_THAT(failure(two(kCommon, "datum = \"MSL\"\nlow_water_m = -1.1\n")),
             Contains("low_water_m is missing") && Contains("\"chart\""));
  // The same zero, written otherwise.
  CHECK(parsed(two(kCommon, "datum = \" mllw \"\n")).depth.several.size() == 2);
  // A zero that is not low water, common to all.
  CHECK_THAT(failure(two("positive = \"down\"\ndatum = \"MSL\"\n")),
             Contains("low_water_m is missing"));
  const Plan common_zero = parsed(two("positive = \"down\"\ndatum = \"MSL\"\nlow_water_m = -1\n"));
  CHECK(std::get<double>(common_zero.depth.sources()[1].low_water) == -1.0);
}

TEST_CASE("A file or sources, not both, and each with its way up") {
  CHECK_THAT(failure(two(kCommon + "file = \"depth.tif\"\n")), Contains("are both given"));
  CHECK_THAT(failure(two(kCommon + "layer = \"DEPARE\"\n")), Contains("are both given"));
  CHECK_THAT(failure(two(kCommon + "longest_edge_m = 9\n")), Contains("are both given"));
  CHECK_THAT(failure(two("datum = \"MLLW\"\n")), Contains("depth.sources[0].positive is missing"));
  CHECK(parsed(two("datum = \"MLLW\"\n", "positive = \"up\"\n", "positive = \"down\"\n"))
            .depth.sources()[0]
            .positive == Positive::up);
  CHECK_THAT(failure(two(kCommon, "name = \"x\"\n")), Contains("plan.toml"));
  CHECK_THAT(failure(two(kCommon, "feathers = 2\n")),
             Contains("unknown key 'depth.sources[0].feathers'"));
  CHECK_THAT(failure(with("file = \"depth.tif\"\n", "sources = []\n")),
             Contains("depth.file is missing"));
}
