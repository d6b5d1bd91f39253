// SPDX-License-Identifier: Apache-2.0
// Penniman 1983 (doctoral dissertation, abstract read): G. tikvahiae in place in an estuary grew
// best from June to September, at most 11 % a day, and never held less than 2 % nitrogen. What the
// model was given is written in support/red_alga_trials.hpp.
#include <catch2/catch.hpp>
#include <vector>

#include "support/red_alga_trials.hpp"

using namespace tidelot;

TEST_CASE(
    "Penniman 1983: the best month is one of June to September, accepted at 9 to 13 % a day") {
  const AlgaConstants c = trials::alga();
  std::vector<double> growth;
  for (int month = 0; month < kMonths; ++month) {
    growth.push_back(trials::growth_in_place(month, c));
  }
  const auto best = std::max_element(growth.begin(), growth.end()) - growth.begin();
  CHECK((best >= 5 && best <= 8));
  CHECK((growth[static_cast<std::size_t>(best)] > 9.0));
  CHECK((growth[static_cast<std::size_t>(best)] < 13.0));
}

TEST_CASE("Penniman 1983: nothing grows in the winter months") {
  const AlgaConstants c = trials::alga();
  for (const int month : {0, 1, 2, 3, 10, 11}) {
    CHECK(trials::growth_in_place(month, c) <= 0.0);
  }
}

TEST_CASE("Penniman 1983: tissue nitrogen never falls below 2 % of dry weight") {
  const AlgaConstants c = trials::alga();
  for (int month = 0; month < kMonths; ++month) {
    CHECK(trials::plants_in_place(month, c).days.back().tissue_n >= 0.02);
  }
}
