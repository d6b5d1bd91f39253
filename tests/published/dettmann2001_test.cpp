// SPDX-License-Identifier: Apache-2.0
// Nitrogen that an estuary loses by itself: rate 0.30 a month, Dettmann 2001, Estuaries 24:481-490
// (doi 10.2307/1353250) and Nielsen et al. 1995, Mar. Ecol. Prog. Ser. 119:275-283 (doi
// 10.3354/meps119275), both read in abstract; the form 1/(1 + 0.30 T) is from memory, the values
// below are its arithmetic.
#include <catch2/catch.hpp>

#include "tidelot/sites/accounting.hpp"

TEST_CASE("part of the load that reaches the sea by residence time") {
  CHECK(tidelot::reaches_sea(0.0) == 1.0);
  CHECK(tidelot::reaches_sea(0.1) == Approx(0.971).margin(5e-4));
  CHECK(tidelot::reaches_sea(0.5) == Approx(0.870).margin(5e-4));
  CHECK(tidelot::reaches_sea(1.0) == Approx(0.769).margin(5e-4));
  CHECK(tidelot::reaches_sea(6.0) == Approx(0.357).margin(5e-4));
}

TEST_CASE("an estuary of 1.5 to 13 days that was found to lose 2 to 3 percent lies in the range") {
  // The form gives 1.5 % for the shortest and 11 % for the longest of its residence times.
  constexpr double kDaysPerMonth = 365.0 / 12.0;
  CHECK(1.0 - tidelot::reaches_sea(1.5 / kDaysPerMonth) < 0.02);
  CHECK(1.0 - tidelot::reaches_sea(13.0 / kDaysPerMonth) > 0.03);
}
