// SPDX-License-Identifier: Apache-2.0
#include "run/members/member_seasons.hpp"

#include <catch2/catch.hpp>

#include "support/member_bay.hpp"

using namespace tidelot;

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
