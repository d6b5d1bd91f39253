// SPDX-License-Identifier: Apache-2.0
// Abreu et al. 2009, Aquaculture 293:211-220, doi 10.1016/j.aquaculture.2009.03.043 (citation read,
// numbers from memory): G. chilensis on lines near fish cages grew up to about 4 % a day and
// carried off up to 9.3 g N per metre of line and month. What is assumed is written in
// support/red_alga_trials.hpp. Accepted: a quarter less or more (judgement).
#include <catch2/catch.hpp>

#include "support/red_alga_trials.hpp"

using namespace tidelot;

TEST_CASE("Abreu et al. 2009: about 4 % a day at best", "[!shouldfail]") {
  // Fails low, 2.2: G. chilensis grows in water of 12 to 15 degC, in which the curve of the
  // warm-temperate species is below 0.4. The profile is not one for that species.
  const double growth = trials::cage_growth(trials::alga());
  CHECK((growth > 3.0 && growth < 5.0));
}

TEST_CASE("Abreu et al. 2009: up to 9.3 g N per metre and month", "[!shouldfail]") {
  // Fails low, 2.0, for the same reason; the stocking weight behind the figure is not known either.
  const double nitrogen = trials::cage_nitrogen(trials::alga());
  CHECK((nitrogen > 7.0 && nitrogen < 11.6));
}
