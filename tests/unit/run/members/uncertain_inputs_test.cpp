// SPDX-License-Identifier: Apache-2.0
#include "run/members/uncertain_inputs.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "support/member_bay.hpp"

using namespace tidelot;
using run::ErrorLayer;

namespace {

const run::LayerError& of(const run::UncertainInputs& inputs, ErrorLayer layer) {
  return inputs.layers[static_cast<std::size_t>(layer)];
}

LayerReport report(const std::string& key, double error, const std::string& unit) {
  LayerReport out;
  out.key = key;
  out.error = error;
  out.error_unit = unit;
  out.error_basis = "from the plan";
  return out;
}

}  // namespace

TEST_CASE("an error that nobody states is a judgement and says so", "[run]") {
  const auto inputs = run::uncertain_inputs(member_bay::plan(), {});
  for (const ErrorLayer layer : {ErrorLayer::temperature, ErrorLayer::salinity, ErrorLayer::light,
                                 ErrorLayer::nitrogen, ErrorLayer::current}) {
    CHECK(of(inputs, layer).sd > 0.0);
    CHECK_THAT(of(inputs, layer).basis, Catch::Contains("not verified"));
  }
  CHECK(of(inputs, ErrorLayer::nitrogen).relative);
  CHECK(of(inputs, ErrorLayer::nitrogen).sd == 0.40);
  CHECK(of(inputs, ErrorLayer::depth).sd == 0.3);
}

TEST_CASE("a layer's stated error goes before it, in its unit", "[run]") {
  const std::vector<LayerReport> reports{report("water.temperature", 0.8, "degC"),
                                         report("water.nitrogen", 2.0, "umol/L")};
  const auto inputs = run::uncertain_inputs(member_bay::plan(), reports);
  CHECK(of(inputs, ErrorLayer::temperature).sd == 0.8);
  CHECK(of(inputs, ErrorLayer::nitrogen).sd == 2.0);
  CHECK_FALSE(of(inputs, ErrorLayer::nitrogen).relative);
  CHECK(of(inputs, ErrorLayer::nitrogen).basis == "from the plan");
}

TEST_CASE("errors of nitrate and ammonium given apart add up as squares", "[run]") {
  Plan plan = member_bay::plan();
  plan.nitrate.emplace().key = "water.nitrogen.nitrate";
  plan.ammonium.emplace().key = "water.nitrogen.ammonium";
  const std::vector<LayerReport> reports{report("water.nitrogen.nitrate", 3.0, "umol/L"),
                                         report("water.nitrogen.ammonium", 4.0, "umol/L")};
  CHECK(of(run::uncertain_inputs(plan, reports), ErrorLayer::nitrogen).sd == Approx(5.0));
}

TEST_CASE("of the crop every constant with a range is drawn, and no other", "[run]") {
  const auto plan = member_bay::plan();
  const auto inputs = run::uncertain_inputs(plan, {});
  const auto ranged = std::count_if(plan.crop.constants.begin(), plan.crop.constants.end(),
                                    [](const CropConstant& c) { return c.low < c.high; });
  CHECK(static_cast<std::ptrdiff_t>(inputs.constants.size()) == ranged);
  CHECK(ranged > 5);
  for (const run::ConstantRange& one : inputs.constants) {
    CHECK((one.range.low <= one.range.mode && one.range.mode <= one.range.high));
    CHECK(one.key.starts_with("crop."));
  }
}

TEST_CASE("a stream is that of its key, whatever the plan", "[run]") {
  CHECK(run::stream_of("depth") == run::stream_of("depth"));
  CHECK(run::stream_of("depth") != run::stream_of("water.nitrogen"));
  CHECK(run::stream_of("crop.mu_max_per_day") < 0x80000000U);
}
