// SPDX-License-Identifier: Apache-2.0
#include "geoio/filter_words.hpp"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace tidelot::geoio;

TEST_CASE("a filter's first name that is no field is found") {
  const std::vector<std::string> fields{"name", "status", "Depth m"};
  CHECK(unknown_field("stauts = 'mapped'", fields) == "stauts");
  CHECK(unknown_field("STATUS = 'mapped' and naem like 'x%'", fields) == "naem");
  CHECK(unknown_field("\"Depth m\" > 3 AND \"Depth ft\" > 1e3", fields) == "Depth ft");
  CHECK(unknown_field("status in ('a', 'b') or name is not null", fields).empty());
  CHECK(unknown_field("upper(name) = 'X' and cast(status as integer) = 4", fields).empty());
  CHECK(unknown_field("name = 'it''s stauts'", fields).empty());
  CHECK(unknown_field("", fields).empty());
}

TEST_CASE("a word counts outside of quotes only, in letters of any size") {
  CHECK(holds_word_outside_quotes("a in (SELECT 1)", "select"));
  CHECK_FALSE(holds_word_outside_quotes("a = 'select'", "select"));
  CHECK_FALSE(holds_word_outside_quotes("\"select\" = 1", "select"));
  CHECK_FALSE(holds_word_outside_quotes("selected = 1", "select"));
}
