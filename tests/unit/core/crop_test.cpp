// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/crop.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

using namespace tidelot;

namespace {

Crop alga() {
  Crop crop;
  crop.name = "some-alga";
  crop.constants = {{"t_min", 4.0, 4.0, 4.0, "degC", "judgement"},
                    {"t_opt", 22.0, 20.0, 24.0, "degC", "judgement"},
                    {"t_max", 33.0, 33.0, 33.0, "degC", "judgement"}};
  return crop;
}

GrowthRange range_of(std::vector<Curve::Point> temperature) {
  Crop kelp;
  kelp.temperature = Curve(std::move(temperature));
  return growth_range(kelp);
}

}  // namespace

TEST_CASE("A constant is found by its whole name") {
  const Crop crop = alga();
  CHECK(crop.at("t_opt") == 22.0);
  CHECK(crop.has("t_max"));
  CHECK_FALSE(crop.has("t_ma"));
  CHECK_FALSE(crop.has(""));
}

TEST_CASE("A constant that a profile lacks is a fault that names both") {
  const Crop crop = alga();
  CHECK_THROWS_AS(crop.at("q_min"), std::out_of_range);
  CHECK_THROWS_WITH(crop.at("q_min"),
                    Catch::Contains("some-alga") && Catch::Contains("no constant q_min"));
}

TEST_CASE("An alga grows between its constants") {
  const GrowthRange range = growth_range(alga());
  CHECK(range.t_min == 4.0);
  CHECK(range.t_opt == 22.0);
  CHECK(range.t_max == 33.0);
}

TEST_CASE("A kelp grows where its curve is above 0, best in the middle of the highest") {
  const GrowthRange range = range_of({{-2, 0}, {0, 0}, {8, 1}, {12, 1}, {20, 0}, {25, 0}});
  CHECK(range.t_min == 0.0);
  CHECK(range.t_opt == 10.0);
  CHECK(range.t_max == 20.0);
}

TEST_CASE("A curve that ends above 0 bounds no temperature there") {
  const GrowthRange cold = range_of({{0, 0.4}, {10, 1}, {20, 0}});
  CHECK(cold.t_min == -INFINITY);
  CHECK(cold.t_opt == 10.0);
  CHECK(cold.t_max == 20.0);
  const GrowthRange warm = range_of({{5, 0}, {15, 1}, {20, 0.3}});
  CHECK(warm.t_min == 5.0);
  CHECK(warm.t_opt == 15.0);
  CHECK(warm.t_max == INFINITY);
}
