// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <vector>

#include "report/parts.hpp"
#include "support/report_fixture.hpp"

using namespace tidelot;
using Catch::Contains;

TEST_CASE("low water is told above or below the layer's zero", "[report]") {
  test::ReportFixture bay;
  bay.plan.depth.low_water = -1.3;
  CHECK_THAT(page::sources(bay.data()), Contains("1.3 m below the layer's zero") ||
                                            Contains("1.3 m below the layer&#39;s zero"));
  bay.plan.depth.low_water = 0.4;
  CHECK_THAT(page::sources(bay.data()), Contains("0.4 m above the layer"));
}

TEST_CASE("a constant is told with the figures that it carries", "[report]") {
  test::ReportFixture bay;
  ReportData data = bay.data();
  LayerReport current;
  current.key = "water.current";
  current.what = "constant";
  current.low = current.high = 0.5 * 1852.0 / 3600.0;
  const std::vector<LayerReport> layers{current};
  data.layers = layers;
  CHECK_THAT(page::sources(data), Contains("0.2572") && !Contains("0.25722"));
}
