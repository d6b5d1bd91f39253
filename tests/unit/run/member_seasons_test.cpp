// SPDX-License-Identifier: Apache-2.0
#include "run/member_seasons.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "support/member_bay.hpp"
#include "tidelot/core/draws.hpp"

using namespace tidelot;

namespace {

std::vector<float> members_of(const std::vector<float>& values, const run::MemberSeasons& seasons,
                              std::size_t cell) {
  const auto first = values.begin() + static_cast<std::ptrdiff_t>(seasons.at(cell, 0));
  return {first, first + static_cast<std::ptrdiff_t>(seasons.members)};
}

/// The largest difference of P10, P50 and P90 as a share of the crop, over all cells.
double worst(const std::vector<float>& laid, const std::vector<float>& grown,
             const run::MemberSeasons& seasons, std::size_t cells, double stock) {
  double off = 0.0;
  for (std::size_t cell = 0; cell < cells; ++cell) {
    auto a = members_of(laid, seasons, cell);
    auto b = members_of(grown, seasons, cell);
    const Quantiles qa = quantiles_of(a), qb = quantiles_of(b);
    const double crop = std::max(stock, qb.p50 + stock);
    for (const double d : {qa.p10 - qb.p10, qa.p50 - qb.p50, qa.p90 - qb.p90}) {
      off = std::max(off, std::abs(d) / crop);
    }
  }
  return off;
}

}  // namespace

TEST_CASE("without errors and ranges each member's season is the best estimate's", "[run]") {
  const Plan plan = member_bay::plan(3);
  const member_bay::Water water(plan, 5, 1.0);
  const run::Members members(plan, member_bay::sure(plan));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  const auto seasons = run::grow_members(water.forcing().kernel, water.places(), members, draws);
  for (std::size_t cell = 0; cell < water.size(); ++cell) {
    for (std::size_t m = 0; m < 3; ++m) {
      CHECK(seasons.yield_g_per_m[seasons.at(cell, m)] == water.result().yield_g_per_m[cell]);
      CHECK(seasons.nitrogen_g_per_m[seasons.at(cell, m)] == water.result().nitrogen_g_per_m[cell]);
    }
  }
}

TEST_CASE("in smooth water few cells are grown and the rest is within the tolerance", "[run]") {
  const Plan plan = member_bay::plan();
  const member_bay::Water water(plan, 48, 0.0);
  const run::Members members(plan, run::uncertain_inputs(plan, {}));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  const auto best = water.best();
  const auto grown = run::grow_members(best.forcing, best.places, members, draws);
  const auto laid = run::spread_members(best, members, draws, 0.01);
  CHECK(grown.grown == water.size());
  CHECK(laid.grown < water.size() / 2);
  CHECK(worst(laid.yield_g_per_m, grown.yield_g_per_m, grown, water.size(),
              best.stocked.fresh_g_per_m) < 0.02);
  CHECK(worst(laid.nitrogen_g_per_m, grown.nitrogen_g_per_m, grown, water.size(),
              best.stocked.nitrogen_g_per_m) < 0.02);
}

TEST_CASE("in water that is noise every cell is grown and so is exact", "[run]") {
  const Plan plan = member_bay::plan(16);
  const member_bay::Water water(plan, 24, 1.0);
  const run::Members members(plan, run::uncertain_inputs(plan, {}));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  const auto best = water.best();
  const auto laid = run::spread_members(best, members, draws, 0.01);
  const auto grown = run::grow_members(best.forcing, best.places, members, draws);
  CHECK(laid.grown > water.size() * 95 / 100);
  CHECK(worst(laid.yield_g_per_m, grown.yield_g_per_m, grown, water.size(),
              best.stocked.fresh_g_per_m) < 0.05);
}

TEST_CASE("a tolerance of nothing grows every cell", "[run]") {
  const Plan plan = member_bay::plan(8);
  const member_bay::Water water(plan, 20, 0.0);
  const run::Members members(plan, run::uncertain_inputs(plan, {}));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  const auto best = water.best();
  const auto laid = run::spread_members(best, members, draws, 0.0);
  const auto grown = run::grow_members(best.forcing, best.places, members, draws);
  CHECK(laid.grown == water.size());
  CHECK(laid.yield_g_per_m == grown.yield_g_per_m);
  CHECK(laid.nitrogen_g_per_m == grown.nitrogen_g_per_m);
}

TEST_CASE("a member too cold for a season yields nothing and says so", "[run]") {
  const Plan plan = member_bay::plan(16);
  const member_bay::Water water(plan, 2, 0.0);
  run::UncertainInputs inputs = member_bay::water_alone(plan);
  inputs.layers[static_cast<std::size_t>(run::ErrorLayer::temperature)].sd = 8.0;
  const run::Members members(plan, inputs);
  run::LayerDraws draws(plan.uncertainty, inputs);
  const auto seasons = run::grow_members(water.forcing().kernel, water.places(), members, draws);
  std::size_t without = 0;
  for (std::size_t m = 0; m < 16; ++m) {
    if (seasons.state[m] != SeasonState::grows) {
      ++without;
      CHECK(seasons.yield_g_per_m[m] == 0.0F);
      CHECK(seasons.nitrogen_g_per_m[m] == 0.0F);
    }
  }
  CHECK(without > 0);
  CHECK(without < 16);
}
