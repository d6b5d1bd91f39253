// SPDX-License-Identifier: Apache-2.0
// Anderson et al. 1996, J. Appl. Phycol. 8:421 (abstract read, citation from memory): G. gracilis
// on lines 0.75 m apart, stocked with 400 g/m, relative growth about 5 % a day, gave about 2 kg of
// fresh weight per square metre in 30 days.
#include <catch2/catch.hpp>
#include <vector>

#include "tidelot/growth/model.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

TEST_CASE(
    "G-10 30 days at 5 % a day from 400 g/m, computed independently; published about 2 kg/m2") {
  // The measured rate stands in for the responses: no photosynthesis, and a "respiration" of -5 %.
  AlgaConstants c = alga_constants(built_in_crop("warm-red-alga"));
  c.mu_max_per_day = 0.0;
  c.respiration_20 = -0.05;
  c.q10 = 1.0;
  c.loss_per_day = 0.0;
  const std::vector<DayForcing> days(30, DayForcing{16.0, 34.0, 0.5, 10.0, 0.1, 30.0, 12.0});
  const SeasonResult season = grow_season(days, {0.2, 400.0, 30, 0.4}, c);
  CHECK(season.days.back().biomass_g_per_m == Approx(1792.68).epsilon(1e-5));
  CHECK(season.yield_g_per_m == Approx(1392.68).epsilon(1e-5));
  const double kg_per_m2 = season.yield_g_per_m / 1000.0 / 0.75;
  CHECK(kg_per_m2 == Approx(1.8569).epsilon(1e-4));
  CHECK((kg_per_m2 > 1.6 && kg_per_m2 < 2.4));
  CHECK(season.harvests == 1);
}
