// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_spread.hpp"

#include <catch2/catch.hpp>

#include "support/member_bay.hpp"

using namespace tidelot;

namespace {

run::SiteMembers scored(std::vector<double> score) {
  run::SiteMembers out;
  out.score = std::move(score);
  return out;
}

}  // namespace

TEST_CASE("chances of the order are shares of the members", "[run]") {
  const std::vector<run::SiteMembers> sites{scored({5, 5, 5, 1}), scored({4, 6, 5, 2}),
                                            scored({3, 3, 3, 3}), scored({1, 1, 1, 4})};
  std::vector<SiteSpread> spreads(sites.size());
  run::add_order(sites, spreads);
  CHECK(spreads[0].best == 0.5);  // one of them shared with the second
  CHECK(spreads[1].best == 0.5);
  CHECK(spreads[3].best == 0.25);
  CHECK(spreads[0].in_three == 0.75);
  CHECK(spreads[2].in_three == 1.0);
  CHECK(spreads[0].above_next == 0.375);  // one, and half of one
  CHECK(spreads[0].ties_with_next);
  CHECK(spreads[1].above_next == 0.75);
  CHECK(spreads[1].ties_with_next);
  CHECK_FALSE(spreads[3].ties_with_next);
}

TEST_CASE("sites that lie clearly apart are no tie", "[run]") {
  const std::vector<run::SiteMembers> sites{scored({5, 5, 5, 5, 1}), scored({4, 4, 4, 4, 2})};
  std::vector<SiteSpread> spreads(sites.size());
  run::add_order(sites, spreads);
  CHECK(spreads[0].above_next == 0.8);
  CHECK_FALSE(spreads[0].ties_with_next);
}

TEST_CASE("the input that makes the nitrogen is named, a crop's constant as the crop's", "[run]") {
  const Plan plan = member_bay::plan(64);
  const run::Members members(plan, run::uncertain_inputs(plan, {}));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  const std::vector<XY> place{{0.0, 0.0}};
  run::SiteMembers site;
  site.deviates = draws.at(place);
  for (std::size_t m = 0; m < 64; ++m) {
    const double n = site.deviates.of(run::ErrorLayer::nitrogen, 0, m);
    site.nitrogen_kg.push_back(10.0 + 2.0 * n);
    site.yield_t.push_back(members.constant(0)[m] - (m == 3 ? 10.0 : 0.0));
    site.suitability.push_back(0.5);
  }
  const SiteSpread spread = run::spread_of(site, members);
  REQUIRE_FALSE(spread.shares.empty());
  CHECK(spread.shares.front().input == "dissolved nitrogen");
  CHECK(spread.shares.front().measured);
  CHECK(spread.shares.front().nitrogen > 0.9);
  CHECK(spread.lost == 1.0 / 64.0);
  CHECK(spread.nitrogen_kg.p10 < 9.0);
  CHECK(spread.nitrogen_kg.p90 > 11.0);
  CHECK(spread.suitability.p10 == 0.5);
}
