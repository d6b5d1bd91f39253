// SPDX-License-Identifier: Apache-2.0
// U.S. Army Coastal Engineering Research Center 1984, Shore Protection Manual, chapter 3: waves
// over a fetch. The worked example (W-01) is from memory; the other figures were computed from the
// printed equations, independently of this program.
#include <catch2/catch.hpp>

#include "tidelot/core/wind.hpp"
#include "tidelot/criteria/waves.hpp"

using namespace tidelot;

TEST_CASE("W-01: the manual's worked example of a shallow fetch, 1.5 m and 4.4 s") {
  const SeaState sea = spm_shallow(22.0, 24400.0, 11.0);
  CHECK(sea.height_m == Approx(1.5).margin(0.05));
  CHECK(sea.period_s == Approx(4.4).margin(0.05));
  CHECK(sea.height_m == Approx(1.4928).margin(5e-4));
  CHECK(sea.period_s == Approx(4.411).margin(5e-4));
}

TEST_CASE("W-02: deep water, limited by fetch, with the least duration") {
  struct Row {
    double wind, fetch, height, period, minutes;
  };
  for (const Row& row : {Row{22, 24400, 1.7555, 5.0668, 160.8}, Row{15, 5000, 0.5418, 2.6292, 63.5},
                         Row{10, 2000, 0.2285, 1.6923, 0}}) {
    const SeaState sea = spm_deep(row.wind, row.fetch);
    CHECK(sea.height_m == Approx(row.height).margin(1e-4));
    CHECK(sea.period_s == Approx(row.period).margin(1e-4));
    if (row.minutes > 0) {
      CHECK(spm_deep_duration_s(row.wind, row.fetch) / 60.0 == Approx(row.minutes).margin(0.05));
    }
  }
}

TEST_CASE("W-02: no sea grows beyond the fully developed one") {
  const SeaState sea = spm_deep(10.0, 1e9);
  CHECK(sea.height_m == Approx(0.2433 * 100.0 / 9.81));
  CHECK(sea.period_s == Approx(8.134 * 10.0 / 9.81));
}

TEST_CASE("W-03: shallow water") {
  const auto check = [](double wind, double fetch, double depth, double height, double period) {
    const SeaState sea = spm_shallow(wind, fetch, depth);
    CHECK(sea.height_m == Approx(height).margin(1e-4));
    CHECK(sea.period_s == Approx(period).margin(1e-4));
  };
  check(20, 10000, 5, 0.8444, 3.2011);
  check(15, 5000, 3, 0.4627, 2.3406);
  check(10, 2000, 2, 0.2103, 1.5551);
}

TEST_CASE("W-04: adjusted wind speed, and wind brought to 10 m") {
  CHECK(spm_adjusted_wind(10.0) == Approx(12.0575).margin(1e-4));
  CHECK(spm_adjusted_wind(15.0) == Approx(19.8541).margin(1e-4));
  CHECK(spm_adjusted_wind(20.0) == Approx(28.2830).margin(1e-4));
  CHECK(wind_at_10m(18.0, 4.0) == Approx(20.5173).margin(1e-4));
}

TEST_CASE("W-03: in deep water the shallow form comes close to the deep one, from below") {
  const SeaState deep = spm_deep(15.0, 5000.0);
  const SeaState bottomless = spm_shallow(15.0, 5000.0, 500.0);
  CHECK(bottomless.height_m < deep.height_m);
  CHECK(bottomless.height_m > 0.95 * deep.height_m);
}
