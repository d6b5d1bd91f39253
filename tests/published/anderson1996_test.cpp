// SPDX-License-Identifier: Apache-2.0
// Anderson et al. 1996, J. Appl. Phycol. 8:421 (abstract read, citation from memory): G. gracilis
// on lines 0.75 m apart, stocked with 400 g/m, relative growth about 5 % a day, gave about 2 kg of
// fresh weight per square metre in 30 days.
#include <catch2/catch.hpp>
#include <vector>

#include "support/red_alga_trials.hpp"

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

// Above, the measured rate gave the yield. Below, the water gives both, and the model falls short:
// G. gracilis is a cool-temperate species that grows through winters of 13.5 degC, where the curve
// of the warm-temperate species has come down to a quarter. With every constant at the end of its
// range that favours growth, winter still comes out at 4.6 and summer at 9.8 % a day: it takes a
// profile of its own. What is assumed of the bay is written in support/red_alga_trials.hpp.

TEST_CASE("Anderson et al. 1996: 1.6 to 2.4 kg/m2 in 30 days from the bay's water",
          "[!shouldfail]") {
  const double gain = trials::raft_gain(trials::alga());  // 0.46
  CHECK((gain > 1.6 && gain < 2.4));
}

TEST_CASE("Anderson et al. 1996: more than 10 % a day in summer, thinly stocked", "[!shouldfail]") {
  CHECK(trials::raft_growth({11, 0, 1}, 50.0, trials::alga()) > 10.0);  // 4.7
}

TEST_CASE("Anderson et al. 1996: 6 to 7.5 % a day in winter, thinly stocked", "[!shouldfail]") {
  const double growth = trials::raft_growth({5, 6, 7}, 50.0, trials::alga());  // 0.7
  CHECK((growth > 6.0 && growth < 7.5));
}

TEST_CASE("Anderson et al. 1996: summer beats winter, and a thin crop a dense one") {
  const AlgaConstants c = trials::alga();
  CHECK(trials::raft_growth({11, 0, 1}, 50.0, c) > trials::raft_growth({5, 6, 7}, 50.0, c));
  CHECK(trials::raft_growth({11, 0, 1}, 50.0, c) > trials::raft_growth({11, 0, 1}, 400.0, c));
}
