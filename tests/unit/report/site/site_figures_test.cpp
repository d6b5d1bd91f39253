// SPDX-License-Identifier: Apache-2.0
#include "report/site/site_figures.hpp"

#include <catch2/catch.hpp>
#include <string>

#include "report/parts.hpp"
#include "report/words/say.hpp"
#include "support/report_fixture.hpp"

using namespace tidelot;
using Catch::Contains;

namespace {

/// A site as a box of the plan's own; wrong: what forbids it.
Site own_box(Site site, int number, std::vector<std::string> wrong = {}) {
  site.own = number;
  site.name = "OWN" + std::to_string(number);
  site.wrong = std::move(wrong);
  return site;
}

}  // namespace

TEST_CASE("a site is called by its rank, a place apart by its letter, an own box by its name",
          "[report]") {
  const test::ReportFixture bay;
  const Site ranked = bay.sites.ranked[1];
  CHECK(page::is_ranked(ranked));
  CHECK(page::short_name(ranked) == "2");
  CHECK(page::called(ranked) == "Site 2");
  CHECK(page::plain_name(ranked) == "S02");
  CHECK(page::apart_note(ranked).empty());
  const Site apart = bay.sites.apart[0];
  CHECK_FALSE(page::is_ranked(apart));
  CHECK(page::short_name(apart) == "A1");
  CHECK(page::called(apart) == "Site A1");
  CHECK(page::plain_name(apart) == "A01");
  const Site own = own_box(ranked, 3);
  CHECK(page::is_ranked(own));
  CHECK(page::short_name(own) == "OWN3");
  CHECK(page::called(own) == "Your own box OWN3");
  CHECK(page::plain_name(own) == "OWN3");
  CHECK(page::apart_note(own).empty());
  const Site forbidden =
      own_box(ranked, 1, {"closed by eelgrass beds over 12 % of it", "overlaps OWN2"});
  CHECK_FALSE(page::is_ranked(forbidden));
  CHECK(page::apart_note(forbidden) == "closed by eelgrass beds over 12 % of it; overlaps OWN2");
}

TEST_CASE("the report tells of own boxes, ranked and apart", "[report]") {
  test::ReportFixture bay;
  bay.sites.ranked[1] = own_box(bay.sites.ranked[1], 1);
  bay.sites.apart.insert(bay.sites.apart.begin(),
                         own_box(bay.sites.apart[0], 2, {"closed by <x> over 12 % of it"}));
  bay.sites.notes = {"Your own box OWN1 ranks 2 of 4."};
  const std::string sheets = page::site_sheets(bay.data());
  CHECK_THAT(sheets, Contains("id=\"site-OWN1\""));
  CHECK_THAT(sheets, Contains("Your own box OWN1, ranked 2 of "));
  CHECK_THAT(sheets, Contains("Your own box OWN2, listed apart"));
  CHECK_THAT(sheets, Contains("closed by &lt;x&gt; over 12 % of it"));
  CHECK_THAT(sheets, Contains("largest rectangle along one of the box"));
  const std::string tables = page::site_tables(bay.data());
  CHECK_THAT(tables, Contains(">2, OWN1</a>"));
  CHECK_THAT(tables, Contains(">OWN2</a>"));
  CHECK_THAT(tables, Contains("your own boxes that something forbids"));
  const std::string answer = page::answer(bay.data());
  const std::size_t found = bay.sites.ranked.size() - 1;
  CHECK_THAT(answer, Contains(std::to_string(found) + " places were found"));
  CHECK_THAT(answer, Contains("Your own box OWN1 ranks 2 of 4."));
  CHECK_THAT(answer, Contains("Places listed apart: 1."));  // of those found
}

TEST_CASE("what forbids an own box is told in the reader's language", "[report]") {
  const auto other = Labels::from_text(
      "[told]\nown_apart = \"{0} nicht: {1}\"\nclosed_by = \"zu durch {0} auf {1}\"\n"
      "suitability_below = \"unter {0} auf {1}\"\ntoo_short = \"zu kurz auf {0}\"\n"
      "own_no_line = \"kein Platz, {0}\"\nwithin_setback = \"zu nah an {0}, {1}\"\n"
      "overlaps = \"auf {0}\"\nnearer_than = \"keine {0} von {1}\"\nno_gain = \"nichts\"\n"
      "own_ranks = \"{0}: {1} von {2}\"\n",
      "words.toml");
  const page::Speaking speaking(*other);
  const std::vector<std::pair<std::string, std::string>> told{
      {"closed by eelgrass beds over 12 % of it", "zu durch eelgrass beds auf 12 %"},
      {"suitability below 0.3 over 5 % of it", "unter 0.3 auf 5 %"},
      {"too short for its depth over 7 % of it: the anchor legs leave no line", "zu kurz auf 7 %"},
      {"no room for a line inside margins of 15 m", "kein Platz, 15"},
      {"within the setback of main channel by 5.2 m", "zu nah an main channel, 5.2"},
      {"overlaps OWN2", "auf OWN2"},
      {"nearer than 100 m to OWN3", "keine 100 von OWN3"},
      {"it would yield nothing", "nichts"}};
  for (const auto& [english, german] : told) {
    CHECK(page::translated(english) == german);
    CHECK(page::translated("Your own box OWN1 is listed apart: " + english + ".") ==
          "OWN1 nicht: " + german);
  }
  CHECK(page::translated("Your own box OWN1 ranks 2 of 4.") == "OWN1: 2 von 4");
}
