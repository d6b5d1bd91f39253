// SPDX-License-Identifier: Apache-2.0
#include "sites/field.hpp"

#include <catch2/catch.hpp>
#include <limits>

#include "support/scored_bay.hpp"

using namespace tidelot;
using tidelot::test::ScoredBay;

namespace {
const SiteSize kSize{189.74, 63.25};
}

TEST_CASE("whole scores add up the same in any order and unknown counts nothing") {
  CHECK(whole_score(0.5F, 2.0F) == 1 << 20);
  CHECK(score_of_whole(whole_score(0.25F, -2.0F)) == -0.5);
  CHECK(whole_score(std::numeric_limits<float>::quiet_NaN(), 2.0F) == 0);
}

TEST_CASE("each kind of ground is told apart") {
  ScoredBay bay(8, 1, 10.0);
  bay.set_land(0);
  bay.set_closed(1);
  bay.set_depth_unknown(2);
  bay.set_salinity_unknown(3);
  bay.suitability[4] = 0.29F;
  bay.depth[5] = 30.0F;
  bay.suitability[6] = 0.3F;  // a float a little above or below the plan's 0.3
  const ScoredMaps maps = bay.maps();
  const std::vector<Ground> told{
      Ground::land, Ground::closed,   Ground::depth_unknown, Ground::property_unknown,
      Ground::poor, Ground::too_deep, Ground::good,          Ground::good};
  for (std::size_t i = 0; i < told.size(); ++i) {
    CHECK(ground_at(bay.plan, maps, kSize, i) == told[i]);
    CHECK(is_barred(told[i]) == (i < 2 || i == 4 || i == 5));
  }
  const GroundSurvey ground = survey_ground({bay.plan, bay.grid, maps, kSize});
  CHECK(ground.count.open == 4);
  CHECK(ground.count.good == 2);
  CHECK(ground.count.too_deep == 1);
  CHECK(ground.count.unknown == 2);
}

TEST_CASE("the least suitability is met by its own float") {
  ScoredBay bay(1, 1, 10.0);
  bay.plan.sites.min_suitability = 0.7;
  bay.suitability[0] = 0.7F;  // less than the double 0.7
  CHECK(ground_at(bay.plan, bay.maps(), kSize, 0) == Ground::good);
}

TEST_CASE("runs end at barred cells and at the grid's edge") {
  ScoredBay bay(6, 2, 10.0);
  bay.set_land(bay.grid.index(3, 0));
  bay.set_depth_unknown(bay.grid.index(1, 1));
  const ScoredMaps maps = bay.maps();
  const Waters waters{bay.plan, bay.grid, maps, kSize};
  const GroundField ranked(waters, Wanted::ranked, false);
  CHECK(ranked.allowed(0, 0, 2));
  CHECK_FALSE(ranked.allowed(0, 0, 3));
  CHECK(ranked.allowed(0, 4, 5));
  CHECK_FALSE(ranked.allowed(0, 4, 6));
  CHECK_FALSE(ranked.allowed(0, -1, 1));
  CHECK_FALSE(ranked.allowed(2, 0, 0));
  CHECK_FALSE(ranked.allowed(1, 0, 2));
  const GroundField apart(waters, Wanted::apart, false);
  CHECK(apart.allowed(1, 0, 5));
  CHECK(apart.apart_only(1, 0, 5) == 1);
  CHECK(apart.apart_only(1, 2, 5) == 0);
  CHECK(apart.unknown(1, 1, 1) == 1);
  CHECK(apart.score(1, 0, 2) == 2 * whole_score(0.8F, 2.0F));
}

TEST_CASE("sums over runs that cross patches are those of their cells") {
  constexpr int kCols = 3 * GroundField::kSide + 7;
  constexpr int kRows = GroundField::kSide + 3;
  ScoredBay bay(kCols, kRows, 10.0);
  for (std::size_t i = 0; i < bay.grid.size(); ++i) {
    bay.yield[i] = 0.5F + 0.001F * static_cast<float>(i * 37 % 500);
    if (i % 11 == 0) {
      bay.set_land(i);
    } else if (i % 13 == 0) {
      bay.set_depth_unknown(i);
    }
  }
  const ScoredMaps maps = bay.maps();
  const Waters waters{bay.plan, bay.grid, maps, kSize};
  const GroundField field(waters, Wanted::ranked, false);
  CHECK(field.cells_summed() == 0);
  for (const int row : {0, GroundField::kSide - 1, GroundField::kSide, kRows - 1}) {
    for (const auto& [first, last] : std::initializer_list<std::pair<int, int>>{
             {0, 0}, {63, 63}, {63, 64}, {10, 150}, {64, 127}, {0, kCols - 1}, {190, kCols - 1}}) {
      std::int64_t score = 0;
      int barred = 0, unknown = 0;
      for (int col = first; col <= last; ++col) {
        const std::size_t i = bay.grid.index(col, row);
        const Ground ground = ground_at(bay.plan, maps, kSize, i);
        barred += ground == Ground::good ? 0 : 1;
        unknown += ground == Ground::depth_unknown ? 1 : 0;
        score += ground == Ground::good ? whole_of(suitability_yield(maps, i)) : 0;
      }
      CHECK(field.barred(row, first, last) == barred);
      CHECK(field.unknown(row, first, last) == unknown);
      CHECK(field.apart_only(row, first, last) == unknown);
      CHECK(field.score(row, first, last) == score);
    }
  }
}
