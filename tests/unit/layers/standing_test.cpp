// SPDX-License-Identifier: Apache-2.0
#include "layers/standing.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

TEST_CASE("plain words are closed, open, or not known") {
  for (const bool food : {false, true}) {
    for (const char* word : {"closed", "Closed ", "YES", "mapped", "present"}) {
      CHECK(standing_of(word, food) == Standing::closed);
    }
    for (const char* word : {"open", "no", "Absent", "surveyed and absent"}) {
      CHECK(standing_of(word, food) == Standing::open);
    }
    for (const char* word : {"", "  ", "not surveyed", "never surveyed", "unknown", "opne", "3"}) {
      CHECK(standing_of(word, food) == Standing::unknown);
    }
  }
}

TEST_CASE("growing-area classes mean what the crop is for") {
  struct Row {
    const char* word;
    Standing food, other;
  };
  for (const Row& row : {Row{"Approved", Standing::open, Standing::open},
                         Row{"Conditionally Approved", Standing::unknown, Standing::open},
                         Row{"Restricted", Standing::closed, Standing::caution},
                         Row{"Conditionally Restricted", Standing::closed, Standing::caution},
                         Row{"Prohibited", Standing::closed, Standing::unknown},
                         Row{"Unclassified", Standing::unknown, Standing::unknown}}) {
    CAPTURE(row.word);
    CHECK(standing_of(row.word, true) == row.food);
    CHECK(standing_of(row.word, false) == row.other);
  }
}
