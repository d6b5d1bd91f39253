// SPDX-License-Identifier: Apache-2.0
// From growth to kilograms of nitrogen per hectare: W = W0 e^(growth t), cut back every cycle,
// lines two metres apart. Computed independently; tolerance 1e-5 relative.
#include <catch2/catch.hpp>

#include "support/field_trial.hpp"

using namespace tidelot;

TEST_CASE("G-11 four cycles of 21 days at 6 % a day from 200 g/m, 3 % nitrogen") {
  // A given rate stands in for the responses: no photosynthesis, and a "respiration" of -6 %. A
  // reserve that can be nothing but 3 % stands in for uptake.
  AlgaConstants c = trials::alga();
  c.mu_max_per_day = 0.0;
  c.respiration_20 = -0.06;
  c.q10 = 1.0;
  c.loss_per_day = 0.0;
  c.q_min = c.q_start = 0.03;
  c.q_max = 0.03 * (1.0 + 1e-9);
  const SeasonResult season = trials::grow(trials::steady(22.0), 152, 84, {1.0, 200.0, 21, 0.4}, c);
  CHECK(season.days[20].harvest_g_per_m == Approx(505.084).epsilon(1e-5));
  const double metres_per_ha = 10000.0 / 2.0;
  CHECK(season.days[20].harvest_g_per_m / 1000.0 * metres_per_ha == Approx(2525.42).epsilon(1e-5));
  const double kg_per_ha = season.yield_g_per_m / 1000.0 * metres_per_ha;
  CHECK(kg_per_ha == Approx(10101.69).epsilon(1e-5));
  CHECK(kg_per_ha * c.dry_to_fresh == Approx(1010.17).epsilon(1e-5));
  CHECK(season.nitrogen_g_per_m / 1000.0 * metres_per_ha == Approx(30.305).epsilon(2e-5));
  CHECK(season.harvests == 4);
}
