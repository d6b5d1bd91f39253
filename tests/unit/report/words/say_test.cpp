// SPDX-License-Identifier: Apache-2.0
#include "report/words/say.hpp"

#include <catch2/catch.hpp>

#include "tidelot/report/report.hpp"

namespace tidelot::page {
namespace {

TEST_CASE("labels are spoken while a language is set, and built-in ones else", "[report]") {
  const auto other = Labels::from_text("[words]\nnone = \"keine\"\n", "words.toml");
  {
    const Speaking speaking(*other);
    CHECK(label("words.none") == "keine");
  }
  CHECK(label("words.none") == "none");
}

TEST_CASE("texts of other rooms are told in the language, names in them stay", "[report]") {
  const auto other = Labels::from_text(
      "[reason]\ncold_water = \"kaltes Wasser\"\ngrowth_held_back_by = \"gebremst: {0}\"\n"
      "depth_not_known = \"Tiefe unbekannt\"\n[told]\nover_of_it = \"auf {1} davon: {0}\"\n",
      "words.toml");
  const Speaking speaking(*other);
  CHECK(translated("growth held back by: cold water") == "gebremst: kaltes Wasser");
  CHECK(translated("depth not known over 3 % of it") == "auf 3 % davon: Tiefe unbekannt");
  CHECK(translated("closed: cold water pier") == "closed: cold water pier");
  CHECK(translated("main channel") == "main channel");
  CHECK(translated("").empty());
}

TEST_CASE("without a translation every text of another room stays as it is", "[report]") {
  for (const char* text :
       {"growth held back by: cold water", "depth not known over 3 % of it", "a {0} b", "{", "}",
        "Sites 1, 2 and 3 are a tie", "over over over 1 % of it of it"}) {
    CHECK(translated(text) == text);
  }
}

TEST_CASE("the table holds the cautions that are compiled in", "[report]") {
  for (std::size_t i = 0; i < cautions().size(); ++i) {
    CHECK(label(fmt::format("cautions.full_{:02d}", i + 1)) == cautions()[i]);
  }
}

}  // namespace
}  // namespace tidelot::page
