// SPDX-License-Identifier: Apache-2.0
#include "run/members/members.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "support/member_bay.hpp"
#include "tidelot/core/error.hpp"

using namespace tidelot;
using run::ErrorLayer;

namespace {

double mean(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double v : values) {
    sum += v / static_cast<double>(values.size());
  }
  return sum;
}

double deviation(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double v : values) {
    sum += (v - mean(values)) * (v - mean(values)) / static_cast<double>(values.size());
  }
  return std::sqrt(sum);
}

}  // namespace

TEST_CASE("without errors and ranges every member is the best estimate", "[run]") {
  const Plan plan = member_bay::plan(4);
  const member_bay::Water water(plan, 3, 1.0);
  const run::Members members(plan, member_bay::sure(plan));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  const auto deviates = draws.at(water.places());
  for (std::size_t m = 0; m < members.size(); ++m) {
    KernelForcing same = water.forcing().kernel;
    run::MemberWater(water.forcing().kernel, members, deviates).put(m, same);
    CHECK(same.temperature.values == water.forcing().kernel.temperature.values);
    CHECK(same.nitrogen.values == water.forcing().kernel.nitrogen.values);
    CHECK(same.attenuation.values == water.forcing().kernel.attenuation.values);
    CHECK(members.depth_shift(deviates, 0, m) == 0.0);
    CHECK(members.current_factor(0.2, deviates, 0, m) == 1.0);
  }
}

TEST_CASE("members keep a property's mean and spread by its error", "[run]") {
  const Plan plan = member_bay::plan(400);
  const member_bay::Water water(plan, 1, 0.0);
  run::UncertainInputs inputs = member_bay::water_alone(plan);
  const auto set = [&](ErrorLayer layer, double sd, bool relative) {
    inputs.layers[static_cast<std::size_t>(layer)].sd = sd;
    inputs.layers[static_cast<std::size_t>(layer)].relative = relative;
  };
  set(ErrorLayer::temperature, 0.8, false);
  set(ErrorLayer::nitrogen, 2.0, false);
  set(ErrorLayer::light, 0.25, true);
  const run::Members members(plan, inputs);
  run::LayerDraws draws(plan.uncertainty, inputs);
  const auto deviates = draws.at(water.places());
  const KernelForcing& best = water.forcing().kernel;
  std::vector<double> warmer, richer, darker, deeper;
  const run::MemberWater drawn(best, members, deviates);
  KernelForcing one = best;
  for (std::size_t m = 0; m < members.size(); ++m) {
    drawn.put(m, one);
    warmer.push_back(one.temperature.values[5] - best.temperature.values[5]);
    double sum = 0.0;
    for (const float n : one.nitrogen.values) {
      sum += static_cast<double>(n) / kMonths;
    }
    richer.push_back(sum);
    darker.push_back(one.attenuation.values[3] / best.attenuation.values[3]);
    deeper.push_back(members.depth_shift(deviates, 0, m));
  }
  CHECK(mean(warmer) == Approx(0.0).margin(0.01));
  CHECK(deviation(warmer) == Approx(0.8).epsilon(0.02));
  CHECK(mean(richer) == Approx(8.0).epsilon(0.01));
  CHECK(deviation(richer) == Approx(2.0).epsilon(0.04));
  CHECK(*std::min_element(richer.begin(), richer.end()) > 0.0);
  CHECK(mean(darker) == Approx(1.0).epsilon(0.01));
  CHECK(deviation(darker) == Approx(0.25).epsilon(0.04));
  CHECK(deviation(deeper) == Approx(0.3).epsilon(0.02));
}

TEST_CASE("an error is alike all over the bay, or as far as the plan's length", "[run]") {
  Plan plan = member_bay::plan(16);
  const auto inputs = member_bay::water_alone(plan);
  const std::vector<XY> places{{3.7e5, 4.56e6}, {3.9e5, 4.58e6}};
  run::LayerDraws everywhere(plan.uncertainty, inputs);
  const auto same = everywhere.at(places);
  plan.uncertainty.length_m = 500.0;
  run::LayerDraws near(plan.uncertainty, inputs);
  const auto other = near.at(places);
  std::size_t apart = 0;
  for (std::size_t m = 0; m < 16; ++m) {
    CHECK(same.of(ErrorLayer::nitrogen, 0, m) == same.of(ErrorLayer::nitrogen, 1, m));
    apart += other.of(ErrorLayer::nitrogen, 0, m) != other.of(ErrorLayer::nitrogen, 1, m) ? 1 : 0;
  }
  CHECK(apart == 16);
}

TEST_CASE("two bays share the crop's draws and have errors of their own", "[run]") {
  const Plan plan = member_bay::plan(16);
  const auto inputs = run::uncertain_inputs(plan, {});
  const std::vector<XY> place{{3.7e5, 4.56e6}};
  const auto here = run::LayerDraws(plan.uncertainty, inputs, {-30.06, 41.03}).at(place);
  const auto again = run::LayerDraws(plan.uncertainty, inputs, {-30.0603, 41.0297}).at(place);
  const auto there = run::LayerDraws(plan.uncertainty, inputs, {-29.06, 41.03}).at(place);
  for (std::size_t layer = 0; layer < run::kErrorLayers; ++layer) {
    CHECK(here.z[layer] == again.z[layer]);
    CHECK(here.z[layer] != there.z[layer]);
  }
  const run::Members one(plan, inputs), two(plan, inputs);
  REQUIRE_FALSE(inputs.constants.empty());
  CHECK(std::ranges::equal(one.constant(0), two.constant(0)));
}

TEST_CASE("drawn constants stay in their ranges and spread as triangles", "[run]") {
  const Plan plan = member_bay::plan(200);
  const run::Members members(plan, run::uncertain_inputs(plan, {}));
  for (std::size_t i = 0; i < members.inputs().constants.size(); ++i) {
    const Triangular& range = members.inputs().constants[i].range;
    const auto drawn = members.constant(i);
    for (const double value : drawn) {
      CHECK((value >= range.low && value <= range.high));
    }
    CHECK(mean({drawn.begin(), drawn.end()}) == Approx((range.low + range.mode + range.high) / 3.0)
                                                    .margin(0.01 * (range.high - range.low)));
  }
}

TEST_CASE("ranges that contradict each other are refused with what to do", "[run]") {
  const Plan plan = member_bay::plan(64);
  run::UncertainInputs inputs = member_bay::water_alone(plan);
  inputs.constants.push_back({"crop.t_opt", {12.0, 25.0, 28.0}, "degC", ""});
  CHECK_THROWS_WITH(run::Members(plan, inputs), Catch::Contains("uncertainty.draws = 0"));
}
