// SPDX-License-Identifier: Apache-2.0
// Thesis of 2019 (abstract read): G. gracilis on a longline in an estuary, three weeks in each of
// four seasons, grew at best +1.17 +- 3.2 % a day and else lost weight. The abstract tells nothing
// of the water; what is assumed is written in support/red_alga_trials.hpp.
#include <algorithm>
#include <catch2/catch.hpp>
#include <vector>

#include "support/red_alga_trials.hpp"

using namespace tidelot;

TEST_CASE(
    "poor longline trial of 2019: the best season within 1.17 +- 3.2 % a day, others negative") {
  std::vector<double> seasons;
  for (int season = 0; season < 4; ++season) {
    seasons.push_back(trials::estuary_longline(season, trials::alga()));
  }
  std::sort(seasons.begin(), seasons.end());
  CHECK((seasons[3] > 1.17 - 3.2 && seasons[3] < 1.17 + 3.2));
  CHECK(seasons[2] < 0.0);
}

TEST_CASE("net growth of 0 and below can come out: turbid, fresh or hot water") {
  const AlgaConstants c = trials::alga();
  trials::Water turbid = trials::steady(22.0);
  turbid.attenuation = 5.0;
  turbid.salinity = 20.0;
  CHECK(trials::mean_growth(trials::summer(turbid, c)) < 0.0);
  trials::Water fresh = trials::steady(24.0);
  fresh.salinity = 11.0;
  CHECK(trials::mean_growth(trials::summer(fresh, c)) < 0.0);
  CHECK(trials::mean_growth(trials::summer(trials::steady(33.0), c)) < 0.0);
  CHECK(trials::summer(trials::steady(33.0), c).yield_g_per_m < 0.0);
}
