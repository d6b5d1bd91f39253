// SPDX-License-Identifier: Apache-2.0
#include "report/words/rank_words.hpp"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "report/words/spread_words.hpp"

using namespace tidelot;
using Catch::Contains;

namespace {

std::vector<Site> scored(const std::vector<double>& scores) {
  std::vector<Site> sites;
  for (const double score : scores) {
    Site site;
    site.rank = static_cast<int>(sites.size()) + 1;
    site.suitability = 1.0;  // all print 1.00
    site.score = score;
    sites.push_back(site);
  }
  return sites;
}

}  // namespace

TEST_CASE("scores are printed so that those that differ look different", "[report]") {
  using List = std::vector<std::string>;
  CHECK(page::scores_in_percent(scored({200.0, 150.0})) == List{"100.0", "75.0"});
  CHECK(page::scores_in_percent(scored({200.0, 199.98, 150.0})) ==
        List{"100.00", "99.99", "75.00"});
  CHECK(page::scores_in_percent(scored({200.0, 200.0})) == List{"100.0", "100.0"});
}

TEST_CASE("the order is told, and how equal ones are ordered where there are any", "[report]") {
  CHECK_THAT(page::rank_sentence(scored({200.0, 150.0})),
             Contains("100.0, 75.0") && !Contains("north"));
  CHECK_THAT(page::rank_sentence(scored({200.0, 200.0})), Contains("from north to south"));
  CHECK(page::rank_sentence({}).empty());
  CHECK(page::rank_sentence(scored({0.0, 0.0})).empty());
}

TEST_CASE("without members, scores within a hundredth are told to mean nothing", "[report]") {
  const auto notes = page::tie_notes(scored({200.0, 199.0, 198.5, 150.0}));
  REQUIRE(notes.size() == 1);
  CHECK_THAT(notes[0], Contains("Sites 1, 2 and 3 differ by less than 1 %") &&
                           Contains("no reason to choose"));
  CHECK(page::tie_notes(scored({200.0, 150.0})).empty());
  std::vector<Site> drawn = scored({200.0, 199.0});
  drawn[0].spread.emplace();
  drawn[1].spread.emplace();
  CHECK(page::close_notes(drawn).empty());
}
