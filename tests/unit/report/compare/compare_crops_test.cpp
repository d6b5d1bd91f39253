// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "report/compare/compare_words.hpp"
#include "support/compared_bays.hpp"

using namespace tidelot;

namespace {

CropYield crop(const std::string& name, std::vector<double> nitrogen_kg, int outplant, int haul) {
  CropYield out;
  out.crop = name;
  out.outplant = outplant;
  out.last_haul = haul;
  out.sites = 1;
  out.line_m = 600.0;
  for (const double kg : nitrogen_kg) {
    out.nitrogen_kg += kg / static_cast<double>(nitrogen_kg.size());
    out.members.yield_t.push_back(kg / 4.0);
  }
  out.yield_t = out.nitrogen_kg / 4.0;
  out.members.nitrogen_kg = std::move(nitrogen_kg);
  return out;
}

/// Two bays whose alga gives alike; the second's kelp gives more.
Comparison two_crops() {
  Comparison all = compared_bays::of(
      {compared_bays::bay("A", {4, 5, 6, 7, 8}), compared_bays::bay("B", {4, 5, 6, 7, 8})});
  all.crops = CropPair{"warm-red-alga", "sugar-kelp"};
  for (std::size_t i = 0; i < 2; ++i) {
    const double more = static_cast<double>(i);
    TwoCrops& crops = all.bays[i].crops.emplace();
    crops.second = crop("sugar-kelp", {3, 2, 1, 2, 3}, 320, 120);
    crops.turn.cut = i == 1;
    crops.turn.first_from = 125;
    crops.turn.second_from = 310;
    crops.turn.first = crop("warm-red-alga", {4, 5, 6, 7, 8}, 130, 300);
    crops.turn.second = crop("sugar-kelp", {3 + more, 2 + more, 1, 2 + more, 3 + more}, 320, 120);
    crops.assumed_of_second = {{"season.gear_in", R"("05-01")", "", "told"}};
  }
  return all;
}

}  // namespace

TEST_CASE("the year of two crops is their sum, member by member", "[report]") {
  const Comparison all = two_crops();
  const Measured nitrogen = nitrogen_in_turn(all.bays[0].crops->turn);
  CHECK(nitrogen.members == std::vector<double>{7, 7, 7, 9, 11});
  CHECK(*nitrogen.best == Approx(6.0 + 11.0 / 5.0));
  CHECK(*nitrogen.p10 == 7.0);  // not the sum of the two P10s
  CHECK(*yield_in_turn(all.bays[0].crops->turn).best == Approx((6.0 + 11.0 / 5.0) / 4.0));
}

TEST_CASE("bays are put in order by both crops, with chances", "[report]") {
  const MeasureOrder order = order_in_turn(two_crops());
  CHECK(order.order == std::vector<std::size_t>{1, 0});
  REQUIRE(order.pairs.size() == 1);
  CHECK(order.pairs[0].a_better == Approx(0.1));  // one of five is equal
}

TEST_CASE("a bay whose crops cannot follow each other has no value and says why", "[report]") {
  Comparison all = two_crops();
  all.bays[1].crops->turn = CropsInTurn{};
  all.bays[1].crops->turn.cannot = "sugar-kelp has no season at S01";
  CHECK_FALSE(nitrogen_in_turn(all.bays[1].crops->turn).best.has_value());
  CHECK(order_in_turn(all).order == std::vector<std::size_t>{0, 1});
  const auto sentences = page::crop_sentences(all);
  CHECK(std::ranges::find(sentences,
                          "B: they cannot follow each other: sugar-kelp has no season at S01.") !=
        sentences.end());
  const auto told = nlohmann::json::parse(compare_json(all));
  CHECK(told["estuaries"][1]["crops"]["in_turn"]["cannot"] == "sugar-kelp has no season at S01");
}

TEST_CASE("months are those that a crop is in the water, over the new year in their order",
          "[report]") {
  CHECK(months_of(crop("k", {1}, 320, 120)) == std::vector<int>{11, 12, 1, 2, 3, 4});
  CHECK(months_of(crop("k", {1}, 121, 319)) == std::vector<int>{5, 6, 7, 8, 9, 10, 11});
  CHECK(months_of(crop("k", {1}, 1, 365)).size() == 12);
  CHECK(months_of(crop("k", {1}, 0, 0)).empty());
}

TEST_CASE("what was assumed is told once for all bays of which it holds", "[report]") {
  Comparison all = two_crops();
  CHECK(page::assumed_sentences(all) ==
        std::vector<std::string>{
            "warm-red-alga in A, B: the plan as it is.",
            "sugar-kelp: season.gear_in is none instead of 05-01 (told); in A, B."});
  all.bays[1].crops->assumed_of_second[0].planned = R"("06-01")";
  CHECK(page::assumed_sentences(all).size() == 3);
}
