// SPDX-License-Identifier: Apache-2.0
#include "report/words/spread_words.hpp"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace tidelot;
using Catch::Contains;

namespace {

Site site(int rank, bool ties) {
  Site out;
  out.rank = rank;
  out.name = "S0" + std::to_string(rank);
  out.yield_t = 1.2;
  out.nitrogen_kg = 3.5;
  SiteSpread& spread = out.spread.emplace();
  spread.yield_t = {0.8, 1.1, 1.5};
  spread.nitrogen_kg = {2.3, 3.3, 4.6};
  spread.suitability = {0.7, 0.9, 1.0};
  spread.best = 0.4;
  spread.in_three = 0.9;
  spread.lost = 0.25;
  spread.ties_with_next = ties;
  spread.shares = {{"mu_max_per_day", false, 0.4, 0.3},
                   {"dissolved nitrogen", true, 0.02, 0.2},
                   {"light in the water", true, 0.2, 0.01}};
  spread.shares_by_chance = 0.06;
  return out;
}

Plan plan() {
  Plan out;
  out.uncertainty.draws = 64;
  out.report.units = ReportPlan::Units::metric;
  return out;
}

}  // namespace

TEST_CASE("a range is told once with its unit, in both systems where asked", "[report]") {
  const Quantiles q{0.8, 1.1, 1.5};
  CHECK(page::range_in_line(q, page::crop, ReportPlan::Units::metric) == "0.800 to 1.50 t");
  CHECK_THAT(page::range_in_line(q, page::crop, ReportPlan::Units::both),
             Contains("0.800 to 1.50 t") && Contains("short tons"));
}

TEST_CASE("sites that are not told apart are named together", "[report]") {
  const std::vector<Site> ranked{site(1, true), site(2, true), site(3, false), site(4, false)};
  const auto notes = page::spread_notes(ranked);
  REQUIRE(notes.size() == 2);
  CHECK_THAT(notes[0], Contains("Sites 1, 2 and 3 are a tie"));
  CHECK_THAT(notes[1], Contains("Measure dissolved nitrogen first") && Contains("20 %"));
  CHECK(page::measure_note(std::vector<Site>(2)).empty());  // spread_basis says why
  std::vector<Site> none{site(1, false)};
  none[0].spread->shares_by_chance = 0.9;
  REQUIRE(page::measure_note(none).size() == 1);
  CHECK_THAT(page::measure_note(none)[0], Contains("Nothing stands out to be measured first"));
}

TEST_CASE("the first to measure is the largest of nitrogen that can be measured", "[report]") {
  CHECK(page::measure_first(site(1, false)) == "dissolved nitrogen");
  Site none = site(1, false);
  none.spread->shares = {{"mu_max_per_day", false, 0.4, 0.3}};
  CHECK(page::measure_first(none).empty());
  CHECK(page::measure_first(Site{}).empty());
}

TEST_CASE("the section of a site holds its quantiles, chances and shares", "[report]") {
  const std::string section = page::spread_section(site(1, false), plan());
  CHECK_THAT(section, Contains("P10 to P90 of 64 members"));
  CHECK_THAT(section, Contains("lost (less is hauled than was put out) in 25 %"));
  CHECK_THAT(section, Contains("the best in 40 %") && Contains("best three in 90 %"));
  CHECK_THAT(section, Contains("Measure dissolved nitrogen here first"));
  CHECK_THAT(section, Contains("of the yield: mu_max_per_day of the crop 40 %, light in"));
  CHECK_THAT(section, Contains("Of the nitrogen: mu_max_per_day of the crop 30 %, dissolved "
                               "nitrogen 20 %."));
  CHECK_THAT(section, Contains("<svg class=\"spread\""));
  Plan without = plan();
  without.uncertainty.draws = 0;
  CHECK_THAT(page::spread_section(Site{}, without), Contains("No spread was computed"));
}

TEST_CASE("a site listed apart has no place among the ranked", "[report]") {
  Site apart = site(1, false);
  apart.name = "A01";
  CHECK_THAT(page::spread_section(apart, plan()), !Contains("the best in"));
}
