// SPDX-License-Identifier: Apache-2.0
// What must hold of rules, scores and rankings whatever they are made of. The cases are
// rapidcheck's, which seeks the smallest that fails; RC_PARAMS="seed=... max_success=..." makes
// others.
#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <utility>
#include <vector>

#include "sites/candidates.hpp"
#include "sites/select.hpp"
#include "support/drawn_rings.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/suitability.hpp"

using namespace tidelot;
using namespace tidelot::test;

namespace {

constexpr int kBit = closed_bit::kFirstRule;
rc::Gen<double> share() {
  return rc::gen::map(whole(0, 1001), [](int n) { return n / 1000.0; });
}

Feature polygon(Path ring, double setback_m) {
  Feature feature;
  feature.shape.polygons.push_back({std::move(ring), {}});
  feature.setback_m = setback_m;
  return feature;
}

rc::Gen<Feature> features() {
  return rc::gen::map(rc::gen::pair(rings(), quarter_metres(0, 60)),
                      [](const auto& made) { return polygon(made.first, made.second); });
}

std::vector<std::uint32_t> marked(const Grid& grid, const std::vector<Feature>& rule,
                                  int bit = kBit) {
  std::vector<std::uint32_t> mask(grid.size(), 0);
  mark_closed(grid, rule, Standing::closed, 1.0, bit, mask);
  return mask;
}

/// Is every cell that the first mask closes closed in the other one, too?
bool within(const std::vector<std::uint32_t>& mask, const std::vector<std::uint32_t>& other) {
  return std::equal(mask.begin(), mask.end(), other.begin(), other.end(),
                    [](std::uint32_t a, std::uint32_t b) { return (a & ~b) == 0; });
}

Plan plan_of_three() {
  Plan plan;
  plan.depth.lowest_tide_m = -0.4;
  plan.criteria = {{"growth", Curve({{0, 0}, {2, 1}}), 2.0, {}, ""},
                   {"depth", Curve({{3, 0}, {5, 1}, {15, 1}, {30, 0}}), 1.0, {}, ""},
                   {"current", Curve({{0.02, 0}, {0.1, 1}, {0.3, 1}, {1, 0}}), 1.0, {}, ""}};
  return plan;
}

/// Land, shallows, deep water; poor and rich; some of it not known.
rc::Gen<CellEvidence> cells() {
  const auto often_known = [](int low, int high, double step) {
    return rc::gen::map(
        rc::gen::pair(whole(0, 20), whole(low, high)),
        [step](std::pair<int, int> n) { return n.first == 0 ? std::nan("") : n.second * step; });
  };
  return rc::gen::build<CellEvidence>(
      rc::gen::set(&CellEvidence::depth_low_water, often_known(-20, 400, 0.1)),
      rc::gen::set(&CellEvidence::yield_kg_per_m, often_known(-5, 60, 0.1)),
      rc::gen::set(&CellEvidence::season_current, often_known(0, 150, 0.01)),
      rc::gen::set(&CellEvidence::rules, rc::gen::map(whole(0U, 8U), [](unsigned bits) {
        return std::uint32_t{bits} << static_cast<unsigned>(kBit);
      })));
}

rc::Gen<Candidate> candidates() {
  return rc::gen::build<Candidate>(
      rc::gen::set(&Candidate::score, whole(std::int64_t{0}, std::int64_t{4})),
      rc::gen::set(&Candidate::row, whole(0, 4)), rc::gen::set(&Candidate::col, whole(0, 4)),
      rc::gen::set(&Candidate::angle, whole(0, 4)));
}

}  // namespace

TEST_CASE("rules: a closed area added opens no cell") {
  CHECK(holds([] {
    auto rule = *rc::gen::resize(5, rc::gen::container<std::vector<Feature>>(features()));
    const auto before = marked(kGrid, rule);
    rule.push_back(*features());
    RC_ASSERT(within(before, marked(kGrid, rule)));
  }));
}

TEST_CASE("rules: a larger setback opens no cell") {
  CHECK(holds([] {
    const Path ring = *rings();
    const double setback = *quarter_metres(0, 60);
    const double more = *quarter_metres(0, 60);
    RC_ASSERT(within(marked(kGrid, {polygon(ring, setback)}),
                     marked(kGrid, {polygon(ring, setback + more)})));
  }));
}

TEST_CASE("rules: their order does not count, nor does saying one twice") {
  CHECK(holds([] {
    auto rule = *rc::gen::resize(5, rc::gen::container<std::vector<Feature>>(features()));
    const auto before = marked(kGrid, rule);
    rule.insert(rule.end(), rule.begin(), rule.end());
    std::reverse(rule.begin(), rule.end());
    RC_ASSERT(marked(kGrid, rule) == before);
  }));
}

TEST_CASE("rules: a grid shifted by whole cells shifts the marks") {
  CHECK(holds([] {
    const std::vector<Feature> rule{*features()};
    const int right = *whole(-10, 11);
    const int down = *whole(-10, 11);
    Grid other = kGrid;
    other.west += right * kCell_m;
    other.north -= down * kCell_m;
    const auto here = marked(kGrid, rule);
    const auto there = marked(other, rule);
    for (int row = std::max(0, down); row < std::min(kGrid.rows, kGrid.rows + down); ++row) {
      for (int col = std::max(0, right); col < std::min(kGrid.cols, kGrid.cols + right); ++col) {
        RC_ASSERT(here[kGrid.index(col, row)] == there[other.index(col - right, row - down)]);
      }
    }
  }));
}

TEST_CASE("rules: shapes, setbacks and cells of twice the size close the same cells") {
  CHECK(holds([] {
    Feature feature = *features();
    Grid other = kGrid;
    other.west *= 2.0;
    other.north *= 2.0;
    other.cell_m *= 2.0;
    const auto before = marked(kGrid, {feature});
    for (XY& corner : feature.shape.polygons[0].outer) {
      corner = {2.0 * corner.x, 2.0 * corner.y};
    }
    feature.setback_m *= 2.0;
    RC_ASSERT(marked(other, {feature}) == before);
  }));
}

TEST_CASE("scores: a rule more never raises one") {
  const Scorer scorer(plan_of_three());
  CHECK(holds([&] {
    CellEvidence cell = *cells();
    const CellScore before = scorer(cell);
    cell.rules |= std::uint32_t{1} << static_cast<unsigned>(kBit + 5);
    const CellScore after = scorer(cell);
    const bool land = before.closed == kClosedNotWater;
    RC_ASSERT((land ? std::isnan(after.suitability) : after.suitability == 0.0F));
    RC_ASSERT(after.closed != 0U);
  }));
}

TEST_CASE("scores: between 0 and 1, or not known; closed is 0, open is not") {
  const Scorer scorer(plan_of_three());
  CHECK(holds([&] {
    const CellScore score = scorer(*cells());
    RC_ASSERT((std::isnan(score.suitability) ||
               (score.suitability >= 0.0F && score.suitability <= 1.0F)));
    RC_ASSERT((score.closed == 0U || !(score.suitability > 0.0F)));
  }));
}

TEST_CASE("scores: the mean lies between the least and the greatest and rises with each") {
  CHECK(holds([] {
    auto scores =
        *rc::gen::resize(6, rc::gen::nonEmpty(rc::gen::container<std::vector<double>>(share())));
    const auto weights = *rc::gen::container<std::vector<double>>(
        scores.size(), rc::gen::map(whole(1, 50), [](int n) { return n / 10.0; }));
    const double mean = weighted_geometric_mean(scores, weights);
    const auto [least, most] = std::minmax_element(scores.begin(), scores.end());
    RC_ASSERT(mean >= *least - 1e-12);
    RC_ASSERT(mean <= *most + 1e-12);
    const auto i = static_cast<std::size_t>(*whole(0, static_cast<int>(scores.size())));
    scores[i] += (1.0 - scores[i]) * *share();
    RC_ASSERT(weighted_geometric_mean(scores, weights) >= mean - 1e-12);
  }));
}

TEST_CASE("scores: the unit of the weights does not count") {
  CHECK(holds([] {
    const auto scores = *rc::gen::container<std::vector<double>>(4, share());
    std::vector<double> weights = *rc::gen::container<std::vector<double>>(
        4, rc::gen::map(share(), [](double w) { return w + 0.1; }));
    const double mean = weighted_geometric_mean(scores, weights);
    for (double& weight : weights) {
      weight *= 7.5;
    }
    RC_ASSERT(std::abs(weighted_geometric_mean(scores, weights) - mean) < 1e-12);
  }));
}

TEST_CASE("ranking: a total order") {
  CHECK(holds([] {
    const Candidate a = *candidates();
    const Candidate b = *candidates();
    const Candidate c = *candidates();
    const bool same = a.score == b.score && a.row == b.row && a.col == b.col && a.angle == b.angle;
    RC_ASSERT(!ranks_before(a, a));
    RC_ASSERT(static_cast<int>(ranks_before(a, b)) + static_cast<int>(ranks_before(b, a)) ==
              (same ? 0 : 1));
    RC_ASSERT((!ranks_before(a, b) || !ranks_before(b, c) || ranks_before(a, c)));
    RC_ASSERT((a.score <= b.score || ranks_before(a, b)));
  }));
}
