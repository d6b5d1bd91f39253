// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_farm.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "support/one_cell.hpp"

using namespace tidelot;
using namespace tidelot::one_cell;

namespace {

Site grown(const Plan& plan, const TileLayers& layers) {
  const run::SeasonSetup setup(plan);
  Site site = site_on(plan);
  run::add_farm(site, {forcing(layers, setup), 41.0}, plan, setup);
  return site;
}

std::vector<double> values(const Site& site, Choice::Of of) {
  std::vector<double> all;
  for (const Choice& choice : site.choices) {
    if (choice.of == of) {
      all.push_back(choice.value);
    }
  }
  return all;
}

}  // namespace

TEST_CASE("a farm is as wide as its gear and as deep as its canopy, half a metre at least",
          "[run]") {
  const Plan plan = plan_with_crop();
  AlgaConstants constants = alga_constants(plan.crop);
  constants.canopy_height_m = 0.2;
  constants.canopy_width_m = 0.4;
  const FarmShape one = run::farm_shape({1, 100.0, 100.0, 1}, plan.farm, constants);
  CHECK(one.width_m == Approx(0.4));
  CHECK(one.depth_m == Approx(0.5));
  constants.canopy_height_m = 1.5;
  const FarmShape six = run::farm_shape({6, 100.0, 600.0, 1}, plan.farm, constants);
  CHECK(six.width_m == Approx(30.4));
  CHECK(six.depth_m == Approx(1.5));
  CHECK(six.line_m == Approx(600.0));
}

TEST_CASE("fast, rich water leaves a site's figures; slow, poor water lowers them", "[run]") {
  const Plan plan = plan_with_crop();
  const Site fast = grown(plan, water(0.5F, 20.0F));
  REQUIRE(fast.draw_down);
  CHECK(fast.yield_t == Approx(fast.yield_without_t).epsilon(1e-3));
  CHECK(fast.draw_down->lowest_share > 0.99);
  const Site slow = grown(plan, water(0.005F, 1.0F));
  REQUIRE(slow.draw_down);
  CHECK(slow.yield_without_t == Approx(fast.yield_without_t));
  CHECK(slow.nitrogen_kg < 0.995 * slow.nitrogen_without_kg);
  CHECK(slow.draw_down->lowest_share < 0.98);
  CHECK(slow.draw_down->taken_up_kg < slow.draw_down->supply_kg);
}

TEST_CASE("the plan's own row is there once a group and holds the site's figures", "[run]") {
  Plan plan = plan_with_crop();
  plan.farm.harvest_days = 12;
  const Site site = grown(plan, water(0.05F, 2.0F));
  CHECK(values(site, Choice::Of::line_depth) == std::vector{0.5, 1.0, 1.5, 2.0, 3.0, 4.0});
  CHECK(values(site, Choice::Of::stocking) == std::vector{50.0, 100.0, 200.0, 400.0});
  CHECK(values(site, Choice::Of::harvest_days) == std::vector{7.0, 10.0, 12.0, 14.0, 21.0, 28.0});
  CHECK(values(site, Choice::Of::season).size() == 3);
  int planned = 0;
  for (const Choice& choice : site.choices) {
    if (choice.plan) {
      ++planned;
      CHECK(choice.yield_t == site.yield_t);
      CHECK(choice.nitrogen_kg == site.nitrogen_kg);
    }
  }
  CHECK(planned == 4);
}

TEST_CASE("line depths that would ground are left out; the plan's own stays", "[run]") {
  Plan plan = plan_with_crop();
  plan.depth.lowest_tide_m = -1.2;  // 6.0 - 1.2 - 0.3 - 0.5 - 1.0 leaves 3 m of line depth
  CHECK(values(grown(plan, water(0.1F, 5.0F)), Choice::Of::line_depth) ==
        std::vector{0.5, 1.0, 1.5, 2.0, 3.0});
  plan.farm.line_depth_m = 5.0;
  CHECK(values(grown(plan, water(0.1F, 5.0F)), Choice::Of::line_depth) ==
        std::vector{0.5, 1.0, 1.5, 2.0, 3.0, 5.0});
}

TEST_CASE("seasons stay inside the gear dates; the water's own is offered beside given dates",
          "[run]") {
  Plan plan = plan_with_crop();
  plan.season.gear_in = 150;
  plan.season.gear_out = 280;
  plan.farm.outplant = 170;
  const Site site = grown(plan, water(0.1F, 5.0F));
  CHECK(values(site, Choice::Of::season).size() == 4);
  for (const Choice& choice : site.choices) {
    CHECK(choice.outplant >= 150);
    CHECK(choice.last_haul <= 280);
  }
  const auto water_season =
      std::find_if(site.choices.begin(), site.choices.end(),
                   [](const Choice& c) { return c.of == Choice::Of::season && c.outplant == 150; });
  CHECK(water_season != site.choices.end());
}

TEST_CASE("no season at the centre: the figures stay and the site says why", "[run]") {
  const Plan plan = plan_with_crop();
  const Site site = grown(plan, water(0.1F, 5.0F, 10.0));
  CHECK_FALSE(site.draw_down);
  CHECK(site.no_draw_down == "no season at the centre");
  CHECK(site.choices.empty());
  CHECK(site.yield_t == site.yield_without_t);
}

TEST_CASE("kelp: its own draw-down is counted, and its choices are depth, fronds and season",
          "[run]") {
  Plan plan;
  plan.crop = built_in_crop("sugar-kelp");
  const Site fast = grown(plan, water(0.5F, 20.0F, 20.0));
  REQUIRE(fast.draw_down);
  CHECK(fast.nitrogen_kg == Approx(fast.nitrogen_without_kg).epsilon(0.02));
  const Site slow = grown(plan, water(0.001F, 3.0F, 20.0));
  REQUIRE(slow.draw_down);
  CHECK(slow.nitrogen_kg < 0.95 * slow.nitrogen_without_kg);
  CHECK(slow.draw_down->taken_up_kg < slow.draw_down->supply_kg);
  CHECK(values(slow, Choice::Of::line_depth) == std::vector{0.5, 1.0, 1.5, 2.0, 3.0, 4.0});
  CHECK(values(slow, Choice::Of::fronds) == std::vector{20.0, 40.0, 80.0, 150.0});
  CHECK(values(slow, Choice::Of::season).size() >= 3);
  CHECK(values(slow, Choice::Of::stocking).empty());
  CHECK(values(slow, Choice::Of::harvest_days).empty());
  for (const Choice& choice : slow.choices) {
    CHECK(choice.harvests == 1);
    if (choice.plan) {
      CHECK(choice.yield_t == slow.yield_t);
    }
  }
}

TEST_CASE("a fixed line is not offered where it would come out of the water", "[run]") {
  Plan plan = plan_with_crop();
  plan.farm.fixed_line = true;
  plan.depth.lowest_tide_m = -0.8;
  CHECK(values(grown(plan, water(0.1F, 5.0F)), Choice::Of::line_depth) ==
        std::vector{1.0, 1.5, 2.0, 3.0, 4.0});
}
