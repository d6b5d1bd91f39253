// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/kd_error.hpp"

#include <catch2/catch.hpp>

#include "tidelot/layers/layer_set.hpp"

using namespace tidelot;

TEST_CASE("The error of a Secchi depth becomes that of Kd by the slope of the relation") {
  for (const SecchiRelation relation :
       {SecchiRelation::automatic, SecchiRelation::poole_atkins_1929, SecchiRelation::holmes_1970,
        SecchiRelation::devlin_2008, SecchiRelation::montes_hugo_2005}) {
    LightPlan light;
    light.secchi = relation;
    for (const double depth : {0.6, 1.5, 4.0, 8.0}) {
      const double kd = kd_from_secchi(depth, relation);
      const double slope =
          (kd_from_secchi(depth - 1e-4, relation) - kd_from_secchi(depth + 1e-4, relation)) / 2e-4;
      CAPTURE(static_cast<int>(relation), depth);
      CHECK(kd_error(kd, 0.2, Quantity::secchi, light) == Approx(0.2 * slope).epsilon(1e-3));
    }
  }
}

TEST_CASE("The error of a turbidity goes by the plan's slope, that of Kd stays") {
  LightPlan light;
  light.turbidity_intercept = 0.3;
  light.turbidity_slope = 0.12;
  CHECK(kd_error(1.0, 2.0, Quantity::turbidity, light) == Approx(0.24));
  CHECK(kd_error(1.0, 0.1, Quantity::attenuation, light) == 0.1);
}
