// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/farm.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

AlgaConstants alga() { return alga_constants(built_in_crop("warm-red-alga")); }

constexpr DayForcing kGood{22.0, 28.0, 0.8, 5.0, 0.15, 45.0, 14.0};

/// A season in which every property wanders.
std::vector<DayForcing> wandering(std::size_t count, unsigned seed) {
  std::mt19937 random(seed);
  const auto draw = [&](double low, double high) {
    return low + (high - low) * (static_cast<double>(random()) / 4294967296.0);
  };
  std::vector<DayForcing> days;
  for (std::size_t i = 0; i < count; ++i) {
    days.push_back({draw(5.0, 35.0), draw(8.0, 40.0), draw(0.2, 4.0), draw(0.0, 30.0),
                    draw(0.001, 0.5), draw(1.0, 60.0), draw(8.0, 16.0)});
  }
  return days;
}

FarmResult farm(const std::vector<DayForcing>& days, const FarmShape& shape) {
  return grow_farm(days, {}, alga(), shape);
}

/// A dense farm in slow, poor water: more than a tenth of its nitrogen goes.
std::vector<DayForcing> slow_water() {
  DayForcing day = kGood;
  day.current = 0.02;
  day.nitrogen = 1.0;
  return std::vector<DayForcing>(140, day);
}
constexpr FarmShape kDense{8000.0, 30.0, 0.5, 12};

}  // namespace

TEST_CASE("no days, no farm season") {
  const FarmResult none = farm({}, kDense);
  CHECK(none.per_m.yield_g_per_m == 0.0);
  CHECK(none.supply_g == 0.0);
}

TEST_CASE("in water without end a farm grows as a single line does") {
  const auto days = wandering(150, 7);
  const SeasonResult line = grow_season(days, {}, alga());
  const FarmResult wide = farm(days, {1000.0, 1e14, 0.5, 8});
  CHECK(wide.per_m.yield_g_per_m == Approx(line.yield_g_per_m).epsilon(1e-9));
  CHECK(wide.per_m.nitrogen_g_per_m == Approx(line.nitrogen_g_per_m).epsilon(1e-9));
  CHECK(wide.per_m.uptake_g_per_m == Approx(line.uptake_g_per_m).epsilon(1e-9));
  CHECK(wide.per_m.lost_n_g_per_m == Approx(line.lost_n_g_per_m).epsilon(1e-9));
  CHECK(wide.per_m.harvests == line.harvests);
  CHECK(wide.lowest_share == Approx(1.0).epsilon(1e-9));
}

TEST_CASE("a farm that no water passes grows as a line in water without nitrogen") {
  auto days = std::vector<DayForcing>(140, kGood);
  const FarmResult still = farm(days, {1000.0, 0.0, 0.5, 8});
  for (DayForcing& day : days) {
    day.nitrogen = 0.0;
  }
  const SeasonResult poor = grow_season(days, {}, alga());
  CHECK(still.per_m.yield_g_per_m == Approx(poor.yield_g_per_m).epsilon(1e-12));
  CHECK(still.supply_g == 0.0);
  CHECK(still.taken_up_g == Approx(0.0).margin(1e-9));
}

TEST_CASE("what the water lost is what the crop took up") {
  for (const unsigned seed : {1U, 2U, 3U, 4U, 5U}) {
    for (const double line_m : {10.0, 700.0, 50'000.0}) {
      for (const int segments : {1, 3, 8}) {
        const FarmResult all = farm(wandering(160, seed), {line_m, 30.0, 0.5, segments});
        CAPTURE(seed, line_m, segments);
        CHECK(all.water_lost_g == Approx(all.taken_up_g).epsilon(1e-9));
        CHECK(all.taken_up_g == Approx(line_m * all.per_m.uptake_g_per_m).epsilon(1e-12));
      }
    }
  }
}

TEST_CASE("what the crop took up is carried off or lost: nothing stands after the last haul") {
  const FarmResult all = farm(slow_water(), kDense);
  CHECK(all.per_m.uptake_g_per_m ==
        Approx(all.per_m.nitrogen_g_per_m + all.per_m.lost_n_g_per_m).epsilon(1e-9));
  CHECK(all.lowest_share < 0.9);
}

TEST_CASE("more line in the same water never gives more per metre, and never takes less in all") {
  double yield = 1e300;
  double nitrogen = 1e300;
  double taken = 0.0;
  for (const double line_m : {1.0, 100.0, 1000.0, 4000.0, 16'000.0, 64'000.0}) {
    const FarmResult all = farm(slow_water(), {line_m, 30.0, 0.5, 8});
    CHECK(all.per_m.yield_g_per_m <= yield);
    CHECK(all.per_m.nitrogen_g_per_m <= nitrogen);
    CHECK(all.taken_up_g >= taken);
    CHECK(all.taken_up_g <= all.supply_g);
    yield = all.per_m.yield_g_per_m;
    nitrogen = all.per_m.nitrogen_g_per_m;
    taken = all.taken_up_g;
  }
}

TEST_CASE("the number of segments is large enough: within 1 % of sixty-four") {
  FarmShape fine = kDense;
  fine.segments = 64;
  const SeasonResult good = farm(slow_water(), fine).per_m;
  FarmShape as_used = kDense;
  as_used.segments = FarmShape{}.segments;
  const SeasonResult used = farm(slow_water(), as_used).per_m;
  CHECK(good.nitrogen_g_per_m < 0.9 * grow_season(slow_water(), {}, alga()).nitrogen_g_per_m);
  CHECK(used.yield_g_per_m == Approx(good.yield_g_per_m).epsilon(0.01));
  CHECK(used.nitrogen_g_per_m == Approx(good.nitrogen_g_per_m).epsilon(0.01));
}

namespace {

const KelpConstants& kelp_crop() {
  static const KelpConstants kKelp = kelp_constants(built_in_crop("sugar-kelp"));
  return kKelp;
}

std::vector<DayForcing> winter(double current, double nitrogen) {
  DayForcing day{7.0, 30.0, 0.5, nitrogen, current, 25.0, 11.0, 0.5};
  return std::vector<DayForcing>(150, day);
}

}  // namespace

TEST_CASE("kelp: in water without end a farm grows as a single line does") {
  const auto days = winter(0.15, 6.0);
  const SeasonResult line = grow_season(days, {}, kelp_crop());
  const FarmResult wide = grow_farm(days, {}, kelp_crop(), {1000.0, 1e14, 1.0, 4});
  CHECK(wide.per_m.yield_g_per_m == Approx(line.yield_g_per_m).epsilon(1e-9));
  CHECK(wide.per_m.nitrogen_g_per_m == Approx(line.nitrogen_g_per_m).epsilon(1e-9));
  CHECK(wide.per_m.harvests == 1);
}

TEST_CASE("kelp: what the water lost is what the crop took up; more line, less per metre") {
  double nitrogen = 1e300;
  for (const double line_m : {10.0, 2000.0, 20'000.0}) {
    for (const int segments : {1, 5, 12}) {
      const FarmResult all =
          grow_farm(winter(0.03, 4.0), {}, kelp_crop(), {line_m, 30.0, 1.0, segments});
      CAPTURE(line_m, segments);
      CHECK(all.water_lost_g == Approx(all.taken_up_g).epsilon(1e-9));
      CHECK(all.taken_up_g <= all.supply_g);
      if (segments == 12) {
        CHECK(all.per_m.nitrogen_g_per_m < nitrogen);
        nitrogen = all.per_m.nitrogen_g_per_m;
      }
    }
  }
}

TEST_CASE("kelp: twelve segments are within 1 % of sixty-four") {
  const auto days = winter(0.03, 4.0);
  const SeasonResult fine = grow_farm(days, {}, kelp_crop(), {4000.0, 30.0, 1.0, 64}).per_m;
  const SeasonResult used = grow_farm(days, {}, kelp_crop(), {4000.0, 30.0, 1.0, 12}).per_m;
  CHECK(used.yield_g_per_m == Approx(fine.yield_g_per_m).epsilon(0.01));
  CHECK(used.nitrogen_g_per_m == Approx(fine.nitrogen_g_per_m).epsilon(0.01));
}

namespace {

/// Two or three farms alike in a row along the axis, 400 m apart.
std::vector<FarmOfBay> row_of(std::size_t count) {
  return std::vector<FarmOfBay>(count, {slow_water(), 120, kDense});
}

}  // namespace

TEST_CASE("farms that no water joins grow as each alone") {
  const auto all = grow_farms(row_of(3), {}, {}, alga());
  const FarmResult alone = farm(slow_water(), kDense);
  for (const FarmResult& one : all) {
    CHECK(one.per_m.yield_g_per_m == alone.per_m.yield_g_per_m);
    CHECK(one.per_m.nitrogen_g_per_m == alone.per_m.nitrogen_g_per_m);
    CHECK(one.supply_g == alone.supply_g);
  }
}

TEST_CASE("farms in each other's water take from each other, alike as the tide turns") {
  const double share = 0.5;
  const std::vector<WaterPath> paths{{0, 1, share, 100.0}, {1, 0, share, 100.0}};
  const auto pair = grow_farms(row_of(2), paths, {}, alga());
  const FarmResult alone = farm(slow_water(), kDense);
  CHECK(pair[0].per_m.nitrogen_g_per_m < 0.999 * alone.per_m.nitrogen_g_per_m);
  CHECK(pair[1].per_m.nitrogen_g_per_m < 0.999 * alone.per_m.nitrogen_g_per_m);
  CHECK(pair[0].per_m.nitrogen_g_per_m ==
        Approx(pair[1].per_m.nitrogen_g_per_m).epsilon(0.02));  // the first day is one's alone
}

TEST_CASE("a farm in the middle of three fares worst; the farther and the more mixed, the less") {
  const auto row = [](double share, double distance_m) {
    std::vector<WaterPath> paths;
    for (std::size_t from = 0; from < 3; ++from) {
      for (std::size_t to = 0; to < 3; ++to) {
        if (from != to) {
          const double steps = from > to ? double(from - to) : double(to - from);
          paths.push_back({from, to, share / steps, distance_m * steps});
        }
      }
    }
    return grow_farms(row_of(3), paths, {}, alga());
  };
  const auto near = row(0.6, 100.0);
  CHECK(near[1].per_m.nitrogen_g_per_m < near[0].per_m.nitrogen_g_per_m);
  CHECK(near[1].per_m.nitrogen_g_per_m < near[2].per_m.nitrogen_g_per_m);
  const auto far = row(0.6, 200.0);
  const auto mixed = row(0.3, 100.0);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(far[i].per_m.nitrogen_g_per_m > near[i].per_m.nitrogen_g_per_m);
    CHECK(mixed[i].per_m.nitrogen_g_per_m > near[i].per_m.nitrogen_g_per_m);
    CHECK(near[i].water_lost_g == Approx(near[i].taken_up_g).epsilon(1e-9));
  }
}

TEST_CASE("water that half a tide does not carry so far takes nothing; seasons need not meet") {
  const double way = 0.02 * kHalfTide_s;
  const FarmResult alone = farm(slow_water(), kDense);
  const std::vector<WaterPath> far{{0, 1, 1.0, way}, {1, 0, 1.0, 1.5 * way}};
  CHECK(grow_farms(row_of(2), far, {}, alga())[1].per_m.nitrogen_g_per_m ==
        alone.per_m.nitrogen_g_per_m);
  auto apart = row_of(2);
  apart[1].first_day = 300;
  const std::vector<WaterPath> near{{0, 1, 1.0, 10.0}, {1, 0, 1.0, 10.0}};
  const auto pair = grow_farms(apart, near, {}, alga());
  CHECK(pair[0].per_m.nitrogen_g_per_m == alone.per_m.nitrogen_g_per_m);
  CHECK(pair[1].per_m.nitrogen_g_per_m == alone.per_m.nitrogen_g_per_m);
  CHECK(grow_farms({}, {}, {}, alga()).empty());
}
