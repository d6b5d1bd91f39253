// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/turns.hpp"

#include <algorithm>
#include <bitset>
#include <catch2/catch.hpp>
#include <vector>

using namespace tidelot;

namespace {

SeasonWindow season(int outplant, int last_haul) {
  return {SeasonState::grows, outplant, last_haul};
}

SeasonYield a_day(double rate) {
  return [rate](const SeasonWindow& s) { return rate * s.days(); };
}

using Days = std::bitset<kDaysPerYear + 1>;

/// The days of the year in a season.
Days days_of(const SeasonWindow& s) {
  Days days;
  for (int d = s.outplant; s.days() > 0 && d <= s.last_haul; ++d) {
    days.set(static_cast<std::size_t>(wrapped_day(d)));
  }
  return days;
}

std::size_t shared_days(const Turns& turns) {
  return (days_of(turns.first) & days_of(turns.second)).count();
}

/// The most that two seasons give together without sharing a day, by looking at every pair of
/// stretches of them.
double most_by_hand(const SeasonWindow& first, const SeasonWindow& second, const SeasonYield& one,
                    const SeasonYield& other) {
  struct Stretch {
    Days days;
    double yield = 0.0;
  };
  const auto stretches = [](const SeasonWindow& s, const SeasonYield& yield) {
    std::vector<Stretch> out;
    for (int a = s.outplant; a <= s.last_haul; ++a) {
      for (int b = a; b <= s.last_haul; ++b) {
        out.push_back({days_of(season(a, b)), yield(season(a, b))});
      }
    }
    return out;
  };
  double most = 0.0;
  const std::vector<Stretch> of_second = stretches(second, other);
  for (const Stretch& a : stretches(first, one)) {
    for (const Stretch& b : of_second) {
      if ((a.days & b.days).none()) {
        most = std::max(most, a.yield + b.yield);
      }
    }
  }
  return most;
}

}  // namespace

TEST_CASE("seasons that do not meet stay as they come") {
  const Turns turns = best_turns(season(121, 300), season(330, 365 + 90), a_day(1), a_day(1));
  CHECK_FALSE(turns.cut);
  CHECK(turns.first.outplant == 121);
  CHECK(turns.first.last_haul == 300);
  CHECK(turns.second.outplant == 330);
  CHECK(turns.second.last_haul == 365 + 90);
  CHECK(turns.second_from == 315);  // the gap is 301 to 329
  CHECK(turns.first_from == 106);   // and 91 to 120
}

TEST_CASE("seasons that follow each other without a gap stay as they come") {
  const Turns turns = best_turns(season(100, 200), season(201, 365 + 99), a_day(1), a_day(1));
  CHECK_FALSE(turns.cut);
  CHECK(turns.first.days() == 101);
  CHECK(turns.second.days() == 264);
  CHECK(turns.second_from == 201);
  CHECK(turns.first_from == 100);
}

TEST_CASE("of an overlap the crop that gives more a day has all") {
  const Turns turns = best_turns(season(121, 310), season(290, 365 + 150), a_day(1), a_day(3));
  CHECK(turns.cut);
  CHECK(turns.first.outplant == 151);
  CHECK(turns.first.last_haul == 289);
  CHECK(turns.second.outplant == 290);
  CHECK(turns.second.last_haul == 365 + 150);
  CHECK(shared_days(turns) == 0);
}

TEST_CASE("an overlap is parted by whole days where most comes of it") {
  // The first grows ever more slowly, the second ever faster: best is the day on which the rates
  // cross, 20 days into the overlap.
  const SeasonYield slower = [](const SeasonWindow& s) {
    double sum = 0.0;
    for (int day = s.outplant; day <= s.last_haul; ++day) {
      sum += 400.0 - day;
    }
    return sum;
  };
  const SeasonYield steady = [](const SeasonWindow& s) { return 80.5 * s.days(); };
  const Turns turns = best_turns(season(200, 340), season(300, 365 + 20), slower, steady);
  CHECK(turns.first.last_haul == 319);  // gives 81 on its last day
  CHECK(turns.second.outplant == 320);
}

TEST_CASE("the best turn is as good as any two stretches that share no day") {
  const std::vector<std::pair<SeasonWindow, SeasonWindow>> cases{
      {season(100, 130), season(110, 118)},  // the second within the first
      {season(110, 118), season(100, 130)},  // and the other way round
      {season(350, 380), season(370, 395)},  // over the new year
      {season(100, 125), season(120, 140)}};
  const SeasonYield grows = [](const SeasonWindow& s) { return s.days() * s.days() / 10.0; };
  for (const auto& [first, second] : cases) {
    for (const double rate : {0.5, 2.0, 9.0}) {
      const Turns turns = best_turns(first, second, grows, a_day(rate));
      const double both =
          (turns.first.days() > 0 ? grows(turns.first) : 0.0) + rate * turns.second.days();
      INFO(first.outplant << " " << second.outplant << " " << rate);
      CHECK(shared_days(turns) == 0);
      CHECK(both == Approx(most_by_hand(first, second, grows, a_day(rate))));
    }
  }
}

TEST_CASE("two crops that could each have the whole year part it") {
  const Turns turns = best_turns(season(1, 365), season(1, 365), a_day(1), a_day(2));
  CHECK(turns.cut);
  CHECK(shared_days(turns) == 0);
  CHECK(turns.first.days() + turns.second.days() <= kDaysPerYear);
  CHECK(turns.second.days() > turns.first.days());
}
