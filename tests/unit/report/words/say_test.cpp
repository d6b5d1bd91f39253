// SPDX-License-Identifier: Apache-2.0
#include "report/words/say.hpp"

#include <catch2/catch.hpp>

#include "tidelot/criteria/reason.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot::page {
namespace {

/// Is the text one of [reason], or made by one of it ("closed: {0}") of another, or of a name?
bool stands_in_reason(std::string_view text, std::string_view name) {
  for (const auto& [label, built_in] : Labels::built_in()->all()) {
    const std::size_t place = built_in.find("{0}");
    const std::string_view before = std::string_view(built_in).substr(0, place);
    if (!label.starts_with("reason.") || before.empty() || !text.starts_with(before)) {
      continue;
    }
    const std::string_view rest = text.substr(before.size());
    if (place == std::string::npos ? rest.empty() : rest == name || stands_in_reason(rest, name)) {
      return true;
    }
  }
  return false;
}

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

TEST_CASE("every reason and everything that closes stands in the table", "[report]") {
  const std::string name = "a name of the plan's";
  Plan plan;
  plan.criteria.push_back({name, Curve({{0, 0}, {1, 1}}), 1.0, FileRef{}, ""});
  plan.closed.resize(1);
  plan.closed[0].name = name;
  plan.closed[0].status_field = "status";
  REQUIRE(plan.closed[0].closes());
  std::vector<std::string> texts = reason_names(plan);
  const std::vector<std::string> bits = closed_bit_names(plan);
  texts.insert(texts.end(), bits.begin(), bits.end());
  std::size_t named = 0;
  for (const std::string& text : texts) {
    INFO(text << ": give it a line in [reason] of src/plan/labels.toml");
    CHECK((text.empty() || text == name || stands_in_reason(text, name)));
    named += text.ends_with(name) ? 1 : 0;
  }
  CHECK(named == 4);
  CHECK_FALSE(stands_in_reason("darker than wanted", name));
  CHECK_FALSE(stands_in_reason("growth held back by: the moon", name));
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
