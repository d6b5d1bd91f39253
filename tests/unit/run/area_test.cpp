// SPDX-License-Identifier: Apache-2.0
#include "run/area.hpp"

#include <array>
#include <catch2/catch.hpp>

using namespace tidelot;

TEST_CASE("the error of one scale is that of the worst place in its worst direction") {
  const geoio::ProjectionFactors middle{0.9996, 0.9996, 0.9996 * 0.9996, 0.0};
  const geoio::ProjectionFactors edge{0.9996, 1.0001, 0.9999, 0.0};
  const geoio::ProjectionFactors shrunk{0.9980, 0.9996, 0.9976, 0.0};
  CHECK(run::scale_error(0.9996, std::array{middle}) == 0.0);
  CHECK(run::scale_error(0.9996, std::array{middle, edge}) == Approx(1.0001 / 0.9996 - 1.0));
  CHECK(run::scale_error(0.9996, std::array{edge, shrunk}) == Approx(1.0 - 0.9980 / 0.9996));
}
