// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/reason.hpp"

#include <catch2/catch.hpp>

#include "tidelot/core/error.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"

using namespace tidelot;

namespace {

ClosedPlan rule(const std::string& name, bool caution = false) {
  ClosedPlan closed;
  closed.name = name;
  closed.caution = caution;
  return closed;
}

CriterionPlan own(const std::string& name) {
  return {name, Curve({{0, 0}, {1, 1}}), 1.0, FileRef{}, "m"};
}

}  // namespace

TEST_CASE("codes have their words, gaps have none") {
  Plan plan;
  plan.criteria = {own("shell bottom")};
  plan.closed = {rule("eelgrass beds"), rule("public beach", true), rule("mooring field")};
  const auto names = reason_names(plan);
  REQUIRE(names.size() == 67);
  CHECK(names[reason::kOutside] == "outside the area asked for");
  CHECK(names[22] == "growth held back by: light");
  CHECK(names[reason::kFirstOwn] == "held back by: shell bottom");
  CHECK(names[reason::kFirstRule] == "closed: eelgrass beds");
  CHECK(names[reason::kFirstRule + 1].empty());
  CHECK(names[reason::kFirstRule + 2] == "closed: mooring field");
  CHECK(names[21].empty());
}

TEST_CASE("what holds growth back has words and a code of its own, with its side") {
  const auto names = reason_names(Plan{});
  CHECK(names[22] == "growth held back by: light");
  CHECK(names[23] == "growth held back by: nitrogen");
  CHECK(names[24] == "growth held back by: crowding on the line");
  CHECK(names[25] == "growth held back by: cold water");
  CHECK(names[26] == "growth held back by: warm water");
  CHECK(names[27] == "growth held back by: fresh water");
  CHECK(names[28] == "growth held back by: salty water");
}

TEST_CASE("codes of what is not known, and of what is closed, are those whose words say so") {
  Plan plan;
  plan.criteria = {own("shell bottom")};
  plan.closed = {rule("eelgrass beds")};
  plan.closed[0].status_field = "status";
  const auto names = reason_names(plan);
  REQUIRE(names[reason::kFirstRuleUnknown] == "not known: eelgrass beds");
  for (std::size_t code = 0; code < names.size(); ++code) {
    INFO(code << ": " << names[code]);
    const bool said = names[code].find("not known") != std::string::npos ||
                      names[code] == "no way over water to the landing known";
    CHECK((names[code].empty() || reason::says_unknown(code) == said));
    const bool closed = names[code].starts_with("closed: ") || code == reason::kAground ||
                        names[code].find("the gear allows") != std::string::npos ||
                        names[code].find("the gear bears") != std::string::npos;
    CHECK((names[code].empty() || reason::says_closed(code) == closed));
  }
}

TEST_CASE("codes of temperature and salinity without their side are not used again") {
  const auto names = reason_names(Plan{});
  CHECK(names[20].empty());
  CHECK(names[21].empty());
}

TEST_CASE("bits 4 to 7 are kept free and rules follow from 8") {
  Plan plan;
  plan.closed = {rule("eelgrass beds"), rule("public beach", true)};
  const auto names = closed_bit_names(plan);
  REQUIRE(names.size() == 10);
  CHECK_FALSE(names[closed_bit::kTooShallow].empty());
  CHECK(names[4].empty());
  CHECK(names[7].empty());
  CHECK(names[8] == "eelgrass beds");
  CHECK(names[9].empty());
}

TEST_CASE("more rules or criteria than there are codes are the plan's fault") {
  Plan plan;
  plan.closed.assign(24, rule("zone"));
  CHECK(reason_names(plan).size() == 88);
  plan.closed.push_back(rule("one too many"));
  CHECK_THROWS_AS(closed_bit_names(plan), Error);
  plan.closed.clear();
  plan.criteria.assign(24, own("bottom"));
  CHECK(reason_names(plan)[63] == "held back by: bottom");
  plan.criteria.push_back(own("bottom"));
  CHECK_THROWS_AS(reason_names(plan), Error);
}
