// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/other_crop.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>

#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"
#include "unit/plan/plan_text.hpp"

using namespace tidelot;

namespace {

/// The smallest plan of an alga with keys of its own crop, in a file.
Plan alga_plan(const test::TempFolder& folder, const std::string& more = "") {
  const auto path = folder.path() / "plan.toml";
  std::ofstream(path) << testing::kSmallest << more;
  return read_plan(path);
}

const AssumedKey* assumed(const CropPlan& plan, std::string_view key) {
  const auto found = std::ranges::find(plan.assumed, key, &AssumedKey::key);
  return found == plan.assumed.end() ? nullptr : &*found;
}

constexpr const char* kOwn = R"(
[season]
gear_in = "05-01"
gear_out = "11-15"
[crop.set]
t_opt = 24
[farm]
line_gap_m = 7.0
stocking_g_per_m = 150.0
outplant = "05-15"
[criteria.growth]
curve = [[0, 0], [3, 1]]
weight = 3
)";

}  // namespace

TEST_CASE("a plan is as it is for its own crop", "[plan]") {
  const test::TempFolder folder;
  const CropPlan same = plan_for_crop(alga_plan(folder, kOwn), "warm-red-alga");
  CHECK(same.assumed.empty());
  CHECK(same.plan.crop.at("t_opt") == 24.0);
  CHECK(same.plan.farm.stocking_g_per_m == 150.0);
}

TEST_CASE("for another crop it leaves what is its own crop's, and says so", "[plan]") {
  const test::TempFolder folder;
  const Plan own = alga_plan(folder, kOwn);
  const CropPlan other = plan_for_crop(own, "sugar-kelp");
  CHECK(other.plan.crop.name == "sugar-kelp");
  CHECK(other.plan.title == own.title + " (sugar-kelp)");
  CHECK(other.plan.farm.line_gap_m == 7.0);
  CHECK_FALSE(other.plan.farm.outplant.has_value());
  CHECK_FALSE(other.plan.season.gear_in.has_value());
  CHECK_FALSE(other.plan.season.gear_out.has_value());
  const auto growth = std::ranges::find(other.plan.criteria, "growth", &CriterionPlan::name);
  CHECK(growth->curve.points().back().x == 8.0);  // the profile's
  CHECK(growth->weight == 3.0);
  for (const char* key : {"crop.set.t_opt", "farm.stocking_g_per_m", "farm.outplant",
                          "season.gear_in", "season.gear_out", "criteria.growth.curve"}) {
    INFO(key);
    REQUIRE(assumed(other, key) != nullptr);
    CHECK_FALSE(assumed(other, key)->planned.empty());
    CHECK_FALSE(assumed(other, key)->why.empty());
  }
  CHECK(assumed(other, "farm.stocking_g_per_m")->planned == "150");
  CHECK(assumed(other, "farm.stocking_g_per_m")->assumed.empty());
  CHECK(assumed(other, "farm.outplant")->assumed == R"("auto")");
  CHECK(assumed(other, "season.gear_in")->assumed.empty());
  CHECK(other.assumed.size() == 6);
}

TEST_CASE("what a kelp has not, an alga takes from the defaults", "[plan]") {
  const test::TempFolder folder;
  const auto path = folder.path() / "plan.toml";
  std::string text = testing::kSmallest;
  const std::string alga = "warm-red-alga";
  text.replace(text.find(alga), alga.size(), "sugar-kelp");
  std::ofstream(path) << text;
  const CropPlan other = plan_for_crop(read_plan(path), alga);
  CHECK(other.plan.farm.stocking_g_per_m == 100.0);
  REQUIRE(assumed(other, "farm.stocking_g_per_m") != nullptr);
  CHECK(assumed(other, "farm.stocking_g_per_m")->planned.empty());
  CHECK(assumed(other, "farm.stocking_g_per_m")->assumed == "100");
  CHECK(assumed(other, "farm.harvest_days")->assumed == "14");
}

TEST_CASE("a crop that is neither the plan's nor built in is refused by the nearest name",
          "[plan]") {
  const test::TempFolder folder;
  CHECK_THROWS_WITH(plan_for_crop(alga_plan(folder), "sugar-kelb"),
                    Catch::Contains("did you mean 'sugar-kelp'"));
}
