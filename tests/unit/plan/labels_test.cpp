// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/labels.hpp"

#include <catch2/catch.hpp>

#include "tidelot/core/error.hpp"

namespace tidelot {
namespace {

std::string fault_of(const std::string& text) {
  try {
    (void)Labels::from_text(text, "words.toml");
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::plan);
    return error.what();
  }
  return "";
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST_CASE("the built-in labels stand in one table") {
  const auto labels = Labels::built_in();
  CHECK((*labels)["map.title"] == "The map");
  CHECK(labels->left_out() == 0);
  CHECK_THROWS_AS((*labels)["map.nothing"], std::out_of_range);
}

TEST_CASE("a label that a file leaves out keeps its text and is counted") {
  const auto labels = Labels::from_text("[map]\ntitle = \"Die Karte\"\n", "words.toml");
  CHECK((*labels)["map.title"] == "Die Karte");
  CHECK((*labels)["map.zoom"] == "Zoom");
  CHECK(labels->left_out() == labels->all().size() - 1);
}

TEST_CASE("a name that is not known names the nearest") {
  const std::string fault = fault_of("[map]\n\ntitl = \"x\"\n");
  CHECK(holds(fault, "words.toml:3:8: map.titl: no label has that name"));
  CHECK(holds(fault, "did you mean 'map.title'?"));
}

TEST_CASE("a text keeps the places of the built-in one, in any order") {
  CHECK(holds(fault_of("[map]\nmap_of = \"Karte\"\n"),
              "map.map_of: the text must hold the places of the built-in one ({0}), not none"));
  CHECK(holds(fault_of("[map]\ntitle = \"{0}\"\n"), "(none), not {0}"));
  CHECK(holds(fault_of("[map]\nmap_of = \"{0} {x}\"\n"), "not {0}, {?}"));
  CHECK(holds(fault_of("[map]\nmap_of = \"{0} }\"\n"), "{?}"));
  CHECK(fault_of("[map]\nrule = \"({1}) {0}\"\n").empty());
}

TEST_CASE("what is no label is refused") {
  CHECK(holds(fault_of("title = \"x\"\n"), "title: must be a table of labels"));
  CHECK(holds(fault_of("[map]\ntitle = 3\n"), "map.title must be text in quotes"));
  CHECK(holds(fault_of("[map]\ntitle = \"\"\n"), "not empty"));
  CHECK(holds(fault_of("[map\n"), "words.toml:"));
  for (const char* text : {"<b>Karte</b>", "Karte & Bild", "a > b"}) {
    CHECK(holds(fault_of(std::string("[map]\ntitle = \"") + text + "\"\n"),
                "words.toml:2:9: map.title must not hold <, > or &"));
  }
}

}  // namespace
}  // namespace tidelot
