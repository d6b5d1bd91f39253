// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/reason_codes.hpp"

using namespace tidelot;

namespace {

const double kNan = std::numeric_limits<double>::quiet_NaN();

Plan plan_with(std::vector<CriterionPlan> criteria) {
  Plan plan;
  plan.depth.lowest_tide_m = -0.4;
  plan.criteria = std::move(criteria);
  return plan;
}

Plan usual_plan() {
  return plan_with({{"growth", Curve({{0, 0}, {2, 1}}), 2.0, {}, ""},
                    {"depth", Curve({{3, 0}, {5, 1}, {15, 1}, {30, 0}}), 1.0, {}, ""},
                    {"current", Curve({{0.02, 0}, {0.1, 1}, {0.3, 1}, {1, 0}}), 1.0, {}, ""}});
}

/// Water where everything is at its best.
CellEvidence best_cell() {
  CellEvidence cell;
  cell.depth_low_water = 10.0;
  cell.yield_kg_per_m = 3.0;
  cell.mean_factor = {0.9F, 0.8F, 0.3F, 0.6F, 0.7F};
  cell.season_current = 0.2;
  return cell;
}

}  // namespace

TEST_CASE("land and what lies outside are not scored, whatever else holds there") {
  const Scorer scorer(usual_plan());
  CellEvidence cell = best_cell();
  cell.rules = 1U << 8U;
  cell.depth_low_water = 0.0;
  const CellScore land = scorer(cell);
  CHECK(std::isnan(land.suitability));
  CHECK(land.closed == kClosedNotWater);
  CHECK(land.reason == reason::kLand);
  cell.inside = false;
  CHECK(scorer(cell).closed == kClosedNotWater);
  CHECK(scorer(cell).reason == reason::kOutside);
}

TEST_CASE("closed and unknown is closed") {
  const Scorer scorer(usual_plan());
  CellEvidence cell = best_cell();
  cell.rules = (1U << 9U) | (1U << 11U);
  cell.depth_low_water = kNan;
  cell.unknown = reason::kSalinityUnknown;
  const CellScore score = scorer(cell);
  CHECK(score.suitability == 0.0F);
  CHECK(score.closed == ((1U << 9U) | (1U << 11U)));
  CHECK(score.reason == reason::kFirstRule + 1);
}

TEST_CASE("a cell may be closed by a rule and by the bottom at once") {
  const Scorer scorer(usual_plan());
  CellEvidence cell = best_cell();
  cell.depth_low_water = 2.0;
  CHECK(scorer(cell).closed == 1U << closed_bit::kTooShallow);
  CHECK(scorer(cell).reason == reason::kAground);
  CHECK(scorer(cell).suitability == 0.0F);
  cell.rules = 1U << 8U;
  CHECK(scorer(cell).closed == ((1U << 8U) | 1U));
  CHECK(scorer(cell).reason == reason::kFirstRule);
}

TEST_CASE("unknown depth has its own code, another unknown property closes nothing") {
  const Scorer scorer(usual_plan());
  CellEvidence cell = best_cell();
  cell.unknown = reason::kNitrogenUnknown;
  CHECK(std::isnan(scorer(cell).suitability));
  CHECK(scorer(cell).closed == 0);
  CHECK(scorer(cell).reason == reason::kNitrogenUnknown);
  cell.depth_low_water = kNan;
  CHECK(std::isnan(scorer(cell).suitability));
  CHECK(scorer(cell).closed == kClosedUnknown);
  CHECK(scorer(cell).reason == reason::kDepthUnknown);
}

TEST_CASE("no season scores 0 with its reason, but only where growth counts") {
  CellEvidence cell = best_cell();
  cell.season = SeasonState::too_cold;
  const CellScore score = Scorer(usual_plan())(cell);
  CHECK(score.suitability == 0.0F);
  CHECK(score.closed == 0);
  CHECK(score.reason == reason::kTooCold);
  cell.season = SeasonState::outside_gear;
  CHECK(Scorer(usual_plan())(cell).reason == reason::kOutsideGear);
  const Scorer depth_only(plan_with({{"depth", Curve({{3, 0}, {5, 1}}), 1.0, {}, ""}}));
  CHECK(depth_only(cell).suitability == 1.0F);
}

TEST_CASE("everything at its best says so") {
  const CellScore score = Scorer(usual_plan())(best_cell());
  CHECK(score.suitability == 1.0F);
  CHECK(score.reason == reason::kNothing);
}

TEST_CASE("the mean is weighted and the reason is what costs most") {
  const Scorer scorer(usual_plan());
  CellEvidence cell = best_cell();
  cell.yield_kg_per_m = 1.0;
  cell.depth_low_water = 22.5;
  const CellScore score = scorer(cell);
  CHECK(score.suitability == Approx(std::pow(0.5, 3.0 / 4.0)));
  CHECK(score.reason == 22);  // light
}

TEST_CASE("temperature and salinity tell their sides apart") {
  const Scorer scorer(usual_plan());
  CellEvidence cell = best_cell();
  cell.yield_kg_per_m = 1.0;
  cell.mean_factor[0] = 0.1F;
  CHECK(scorer(cell).reason == 25);  // cold water
  cell.warm = true;
  CHECK(scorer(cell).reason == 26);
  cell.mean_factor[1] = 0.05F;
  CHECK(scorer(cell).reason == 27);  // fresh water
  cell.salty = true;
  CHECK(scorer(cell).reason == 28);
}

TEST_CASE("a lost crop scores 0 and is called lost") {
  CellEvidence cell = best_cell();
  cell.yield_kg_per_m = -0.05;
  const CellScore score = Scorer(usual_plan())(cell);
  CHECK(score.suitability == 0.0F);
  CHECK(score.closed == 0);
  CHECK(score.reason == reason::kCropLost);
}

TEST_CASE("depth and current tell their sides of the curve apart") {
  const Scorer scorer(usual_plan());
  CellEvidence cell = best_cell();
  cell.depth_low_water = 4.0;
  CHECK(scorer(cell).reason == reason::kTooShallow);
  cell.depth_low_water = 16.0;
  CHECK(scorer(cell).reason == reason::kTooDeep);
  cell = best_cell();
  cell.season_current = 0.05;
  CHECK(scorer(cell).reason == reason::kCurrentWeak);
  cell.season_current = 0.9;
  CHECK(scorer(cell).reason == reason::kCurrentStrong);
}

TEST_CASE("access and one's own layers name themselves, unknown ones too") {
  const Scorer scorer(plan_with({{"shell", Curve({{0, 0}, {1, 1}}), 1.0, FileRef{}, ""},
                                 {"access", Curve({{0, 1}, {10, 0}}), 1.0, {}, ""},
                                 {"slope", Curve({{0, 1}, {10, 0}}), 1.0, FileRef{}, ""}}));
  CellEvidence cell = best_cell();
  cell.own = {1.0, 5.0};
  CHECK(scorer(cell).reason == reason::kFirstOwn + 1);
  CHECK(scorer.scores(cell) == std::vector<double>{1.0, 1.0, 0.5});
  cell.landing_km = 8.0;
  CHECK(scorer(cell).reason == reason::kFarFromLanding);
  cell.landing_km = kNan;
  CHECK(scorer(cell).reason == reason::kAccessUnknown);
  CHECK(std::isnan(scorer(cell).suitability));
  cell.own = {kNan, 5.0};
  CHECK(scorer(cell).reason == reason::kOwnUnknown);
}

TEST_CASE("by the minimum the lowest criterion is the score and the reason, whatever its weight") {
  Plan plan = usual_plan();
  CellEvidence cell = best_cell();
  cell.yield_kg_per_m = 1.0;    // 0.5, weight 2
  cell.depth_low_water = 24.0;  // 0.4, weight 1
  CHECK(Scorer(plan)(cell).reason == 22);
  CHECK(Scorer(plan)(cell).lowest == Approx(0.4F));
  plan.combine = Combine::minimum;
  const CellScore score = Scorer(plan)(cell);
  CHECK(score.suitability == Approx(0.4F));
  CHECK(score.reason == reason::kTooDeep);
  plan.combine = Combine::both;
  CHECK(Scorer(plan)(cell).suitability == Approx(std::pow(0.5 * 0.5 * 0.4, 0.25)));
  CHECK(Scorer(plan)(cell).lowest == Approx(0.4F));
  CHECK(Scorer(plan)(cell).reason == 22);
  cell.rules = 1U << 8U;
  CHECK(Scorer(plan)(cell).lowest == 0.0F);
  cell = best_cell();
  plan.combine = Combine::minimum;
  CHECK(Scorer(plan)(cell).reason == reason::kNothing);
}

TEST_CASE("a rule that may hold leaves the cell unknown, unless something closes it for certain") {
  Plan plan = usual_plan();
  plan.closed.push_back({"class", {}, "", 0.0, false, "", "", "class"});
  const Scorer scorer(plan);
  CellEvidence cell = best_cell();
  cell.rules_unknown = 1U << 8U;
  CellScore score = scorer(cell);
  CHECK(std::isnan(score.suitability));
  CHECK(score.closed == kClosedUnknown);
  CHECK(score.reason == reason::kFirstRuleUnknown);
  CHECK(reason_names(plan)[score.reason] == "not known: class");
  cell.rules = 1U << 9U;
  CHECK(scorer(cell).suitability == 0.0F);
  CHECK(scorer(cell).closed == 1U << 9U);
  cell.rules = 0;
  cell.depth_low_water = 2.0;
  CHECK(scorer(cell).reason == reason::kAground);
}
