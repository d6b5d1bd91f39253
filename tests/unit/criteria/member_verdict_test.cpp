// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/member_verdict.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "criteria/codes.hpp"

using namespace tidelot;

namespace {

/// One criterion of every kind.
Plan plan_with(Combine combine) {
  Plan plan;
  plan.combine = combine;
  plan.criteria = {{"growth", Curve({{0, 0}, {2, 1}}), 2.0, {}, ""},
                   {"depth", Curve({{3, 0}, {5, 1}, {15, 1}, {30, 0}}), 1.0, {}, ""},
                   {"current", Curve({{0, 0.2}, {0.1, 1}, {0.5, 0}}), 0.5, {}, ""},
                   {"waves", Curve({{1, 1}, {3, 0.5}}), 0.3, {}, ""},
                   {"access", Curve({{0, 1}, {10, 0.1}}), 1.0, {}, ""},
                   {"slope", Curve({{5, 1}, {10, 0.6}}), 0.2, {}, ""},
                   {"my layer", Curve({{0, 0.7}, {1, 1}}), 0.5, FileRef{}, ""}};
  plan.farm.max_depth_m = 25.0;
  plan.farm.max_current_m_s = 0.45;
  plan.depth.lowest_tide_m = -0.4;
  return plan;
}

}  // namespace

TEST_CASE("the members' verdicts are those of the scorer", "[criteria]") {
  constexpr std::size_t kMembers = 37;
  constexpr double kLeast = 0.4;
  const Combine combine = GENERATE(Combine::geometric, Combine::minimum);
  const Plan plan = plan_with(combine);
  REQUIRE(plan.criteria.size() == static_cast<std::size_t>(CriterionKind::own) + 1);
  const Scorer scorer(plan);
  const MemberVerdict verdict(plan, kLeast);
  CHECK(verdict.uses_current());
  std::mt19937 random(3);
  std::normal_distribution<float> normal;
  std::uniform_real_distribution<float> uniform(0.0F, 1.0F);
  const std::size_t size = padded_members(kMembers);
  MemberVerdicts out;
  out.open.resize(size);
  out.suitable.resize(size);
  std::size_t suitable = 0, open = 0, close = 0;
  for (int round = 0; round < 500; ++round) {
    const bool at_the_limit = round % 10 == 0;  // in water just as deep as the gear bears
    CellEvidence cell;
    cell.depth_low_water = at_the_limit ? *plan.farm.max_depth_m : 35.0 * uniform(random);
    cell.season_current = 0.5 * uniform(random);
    cell.landing_km = 8.0 * uniform(random);
    cell.wave_50y_m = 4.0 * uniform(random);
    cell.slope_deg = 12.0 * uniform(random);
    cell.own = {uniform(random)};
    std::vector<float> yield(size, std::numeric_limits<float>::quiet_NaN());
    std::vector<float> shift = yield, z = yield;
    for (std::size_t m = 0; m < kMembers; ++m) {
      shift[m] = at_the_limit ? 0.0F : normal(random);
      z[m] = normal(random);
      yield[m] = m % 9 == 0 ? yield[m] : 4000.0F * uniform(random) - 300.0F;
    }
    const double cv = 0.25, s = std::sqrt(std::log1p(cv * cv));
    MembersOfCell members;
    members.yield_g_per_m.fill(yield.data());
    members.share = {1.0F, 0.0F, 0.0F, 0.0F};
    members.depth_shift_m = shift.data();
    members.least_shift_m = *std::min_element(shift.begin(), shift.begin() + kMembers);
    members.most_shift_m = *std::max_element(shift.begin(), shift.begin() + kMembers);
    members.current_z = z.data();
    members.current_spread = static_cast<float>(s);
    REQUIRE(verdict.can_tell(cell));
    verdict(cell, members, out);
    close += out.close ? 1 : 0;
    if (out.close) {
      continue;
    }
    for (std::size_t m = 0; m < kMembers; ++m) {
      CellEvidence own = cell;
      own.depth_low_water += shift[m];
      own.season_current *= std::exp(s * z[m] - s * s / 2.0);
      own.season = std::isnan(yield[m]) ? SeasonState::too_cold : SeasonState::grows;
      own.yield_kg_per_m = std::isnan(yield[m]) ? 0.0 : yield[m] / 1000.0;
      const CellScore score = scorer(own);
      const bool is_open = own.depth_low_water > 0.0 && score.closed == 0;
      const bool good = is_open && score.suitability > 0.0F && score.suitability >= kLeast;
      CHECK(out.open[m] == (is_open ? 1.0F : 0.0F));
      CHECK(out.suitable[m] == (good ? 1.0F : 0.0F));
      open += is_open ? 1 : 0;
      suitable += good ? 1 : 0;
    }
  }
  CHECK(open > 1000);
  CHECK(suitable > 200);
  CHECK(suitable < open);
  CHECK(close < 50);
}

TEST_CASE("a member that a little more crop would turn is unsure, one at the least is close",
          "[criteria]") {
  Plan plan;
  plan.criteria = {{"growth", Curve({{0, 0}, {2, 1}}), 1.0, {}, ""}};
  const MemberVerdict verdict(plan, 0.5);
  const std::size_t size = padded_members(4);
  const float none = std::numeric_limits<float>::quiet_NaN();
  std::vector<float> yield(size, none), shift(size, none);
  yield[0] = 900.0F;
  yield[1] = 990.0F;
  yield[2] = 1010.0F;
  yield[3] = 1500.0F;
  std::fill_n(shift.begin(), 4, 0.0F);
  CellEvidence cell;
  cell.depth_low_water = 10.0;
  MembersOfCell members;
  members.yield_g_per_m.fill(yield.data());
  members.share = {0.5F, 0.5F, 0.0F, 0.0F};
  members.off_g_per_m = 20.0F;
  members.depth_shift_m = shift.data();
  members.current_z = shift.data();
  MemberVerdicts out;
  out.open.resize(size);
  out.suitable.resize(size);
  verdict(cell, members, out);
  CHECK(out.suitable_count == 2);
  CHECK(out.unsure == 2);
  CHECK_FALSE(out.close);
  yield[1] = 1000.0F;
  verdict(cell, members, out);
  CHECK(out.close);
  cell.rules = 8;
  CHECK_FALSE(verdict.can_tell(cell));
}
