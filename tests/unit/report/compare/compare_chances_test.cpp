// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>

#include "report/compare/compare_words.hpp"
#include "support/compared_bays.hpp"

using namespace tidelot;
using compared_bays::bay;

namespace {

MeasureOrder by_nitrogen(const Comparison& all) { return order_by(orders_of(all), kOrderMeasure); }

}  // namespace

TEST_CASE("bays stand in order with the chance of every place", "[report]") {
  const Comparison all = compared_bays::of(
      {bay("A", {1, 2, 3, 4, 5}), bay("B", {9, 9, 9, 9, 1}), bay("C", {5, 5, 5, 5, 6})});
  const MeasureOrder order = by_nitrogen(all);
  CHECK(order.order == std::vector<std::size_t>{1, 2, 0});
  REQUIRE(order.pairs.size() == 3);
  CHECK(order.pairs[0].a_better == Approx(0.2));  // A above B in the last
  CHECK_FALSE(order.pairs[0].tie);
  CHECK(order.pairs[2].a_better == Approx(0.8));  // B above C
  CHECK_FALSE(order.pairs[2].tie);
  CHECK(order.places[1][0] == Approx(0.8));
  CHECK(order.places[1][2] == Approx(0.2));
  for (const auto& places : order.places) {
    CHECK(places[0] + places[1] + places[2] == Approx(1.0));
  }
}

TEST_CASE("below four in five it is a tie, and said to be one", "[report]") {
  const Comparison all = compared_bays::of({bay("A", {1, 1, 1, 9, 9}), bay("B", {2, 2, 2, 3, 3})});
  const MeasureOrder order = by_nitrogen(all);
  REQUIRE(order.pairs.size() == 1);
  CHECK(order.pairs[0].tie);
  CHECK(ties_with_next(order, 0));
  CHECK_FALSE(ties_with_next(order, 1));
  bool told = false;
  for (const std::string& each : page::compare_sentences(all)) {
    told = told || each.find("are a tie") != std::string::npos;
  }
  CHECK(told);
}

TEST_CASE("a lower cost is better", "[report]") {
  Bay cheap = bay("cheap", {10, 10}), dear = bay("dear", {5, -1});
  cheap.money = dear.money = MoneyPlan{1.0, 0.0};
  const Comparison all = compared_bays::of({dear, cheap});
  const MeasureOrder order = order_by(orders_of(all), "cost_per_kg");
  CHECK(order.order == std::vector<std::size_t>{1, 0});
  REQUIRE(order.pairs.size() == 1);
  CHECK(order.pairs[0].a_better == 0.0);
}

TEST_CASE("members that are not drawn alike give no chances", "[report]") {
  Bay other = bay("B", {1, 2});
  other.seed = 2;
  CHECK_FALSE(paired(compared_bays::of({bay("A", {1, 2}), other})));
  CHECK(by_nitrogen(compared_bays::of({bay("A", {1, 2}), other})).pairs.empty());
  CHECK_FALSE(paired(compared_bays::of({bay("A", {1, 2}), bay("B", {1, 2, 3})})));
  CHECK_FALSE(paired(compared_bays::of({bay("A", {}), bay("B", {})})));
  CHECK(paired(compared_bays::of({bay("A", {1, 2}), bay("B", {1, 2})})));
}

TEST_CASE("a bay without a site comes last and its reason is told", "[report]") {
  Bay none = bay("none", {});
  none.sites.clear();
  none.all = {};
  none.held_back_by = "gear would ground at the lowest tides";
  const Comparison all = compared_bays::of({none, bay("A", {1, 2})});
  CHECK(by_nitrogen(all).order == std::vector<std::size_t>{1, 0});
  const auto sentences = page::compare_sentences(all);
  CHECK(std::any_of(sentences.begin(), sentences.end(), [](const std::string& each) {
    return each == "none has no site: gear would ground at the lowest tides.";
  }));
}

TEST_CASE("what to measure is the layer that makes the difference, not what both share",
          "[report]") {
  std::vector<double> shared, own, a, b;
  for (int i = 0; i < 64; ++i) {
    shared.push_back(((i * 37) % 64) / 8.0);
    own.push_back(((i * 23) % 64) / 32.0 - 1.0);
    a.push_back(20.0 + shared.back() + 3.0 * own.back());
    b.push_back(10.0 + shared.back());
  }
  Bay first = bay("A", a), second = bay("B", b);
  first.errors = {{"salinity", "from the plan", false, shared},
                  {"dissolved nitrogen", "default, not verified: judgement", true, own}};
  const Comparison all = compared_bays::of({first, second});
  const auto found = to_measure(all, by_nitrogen(all));
  REQUIRE(found.size() == 1);
  CHECK(found[0].input == "dissolved nitrogen");
  CHECK(found[0].judged);
  CHECK(found[0].share > 0.9);
}

TEST_CASE("the first sites that reach the target, or that it cannot be reached", "[report]") {
  Bay three = bay("A", {5, 10, 15});
  three.sites.resize(3, three.sites[0]);
  for (BaySite& site : three.sites) {
    site.together_kg = 10.0;
  }
  three.all.nitrogen_kg = 30.0;
  three.all.nitrogen_p10_kg = 15.0;
  const TargetFinding found = target_finding(three, 15.0, false);
  REQUIRE(found.best.has_value());
  CHECK(found.best->sites == 2);
  CHECK(found.best->line_m == 1200.0);
  REQUIRE(found.nine_in_ten.has_value());
  CHECK(found.nine_in_ten->sites == 3);
  const TargetFinding not_found = target_finding(three, 31.0, true);
  CHECK_FALSE(not_found.best.has_value());
  CHECK(page::target_words(not_found, 31.0, page::Units::metric).starts_with("cannot: no more"));
}
