// SPDX-License-Identifier: Apache-2.0
// Young & Verhagen 1996, Coastal Engineering 29:47-78 (coefficients read second-hand), and the
// refit of Breugem & Holthuijsen 2007 (from memory). Expected figures were computed from the
// printed equations, independently of this program.
#include <catch2/catch.hpp>

#include "tidelot/criteria/waves.hpp"

using namespace tidelot;

namespace {

struct Row {
  double wind, fetch, depth, height, period, refit_height, refit_period;
};

constexpr Row kRows[] = {{10, 2000, 2, 0.2117, 1.9117, 0.3041, 1.9455},
                         {15, 5000, 3, 0.4764, 2.8726, 0.6595, 2.9776},
                         {20, 10000, 5, 0.8760, 3.8990, 1.1847, 4.0677},
                         {22, 24400, 11, 1.5158, 5.2293, 2.0347, 5.4398}};

}  // namespace

TEST_CASE("W-06: waves of limited depth, within 1e-3") {
  for (const Row& row : kRows) {
    CAPTURE(row.wind);
    const SeaState sea = young_verhagen(row.wind, row.fetch, row.depth);
    CHECK(sea.height_m == Approx(row.height).margin(1e-3));
    CHECK(sea.period_s == Approx(row.period).margin(1e-3));
    const SeaState refit = breugem_holthuijsen(row.wind, row.fetch, row.depth);
    CHECK(refit.height_m == Approx(row.refit_height).margin(1e-3));
    CHECK(refit.period_s == Approx(row.refit_period).margin(1e-3));
  }
}

TEST_CASE("W-06: the form with unrounded coefficients differs by less than 2 %") {
  CHECK(young_verhagen(15, 5000, 3).height_m == Approx(0.4856).epsilon(0.02));
}

TEST_CASE("W-07: within 10 % of the Shore Protection Manual where U_A is set to the same number") {
  for (const Row& row : {kRows[1], kRows[3]}) {
    CHECK(young_verhagen(row.wind, row.fetch, row.depth).height_m ==
          Approx(spm_shallow(row.wind, row.fetch, row.depth).height_m).epsilon(0.10));
  }
}

TEST_CASE("W-06: no wind, no fetch or no water makes no waves") {
  for (const SeaState& sea :
       {young_verhagen(0, 1000, 3), young_verhagen(10, 0, 3), young_verhagen(10, 1000, 0)}) {
    CHECK(sea.height_m == 0.0);
    CHECK(sea.period_s == 0.0);
  }
}
