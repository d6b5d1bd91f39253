// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/tile_kernel.hpp"

#include <hwy/targets.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <random>
#include <thread>

#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/season/sun.hpp"

using namespace tidelot;

namespace {

constexpr double kLatitude = 41.0;

const AlgaConstants& alga() {
  static const AlgaConstants kAlga = alga_constants(built_in_crop("warm-red-alga"));
  return kAlga;
}

/// n cells whose months are drawn anew between low and high.
NodeArray drawn(std::size_t cells, double low, double high, std::mt19937& random,
                bool steady = false) {
  std::uniform_real_distribution<double> between(low, high);
  NodeArray array{{}, steady};
  for (std::size_t i = 0; i < cells * (steady ? 1 : kMonths); ++i) {
    array.values.push_back(static_cast<float>(between(random)));
  }
  return array;
}

void add_sun(KernelForcing& f) {
  f.latitude_weight.assign(f.cells, 0.0F);
  for (int day = 1; day <= kDaysPerYear; ++day) {
    const SunDay sun = sun_of_day(kLatitude, day);
    for (std::size_t i = 0; i < 2; ++i) {
      f.sun_radiation_mj[i].push_back(
          static_cast<float>(global_radiation_mj(0.5, sun.extraterrestrial_mj)));
      f.sun_day_length_h[i].push_back(static_cast<float>(sun.day_length_h));
    }
  }
}

/// Random water, some of it below 0 as overshooting nodes are, and random seasons, some over the
/// new year, some of one day.
KernelForcing random_tile(std::size_t cells, unsigned seed) {
  std::mt19937 random(seed);
  KernelForcing f;
  f.cells = cells;
  f.temperature = drawn(cells, 4.0, 35.0, random);
  f.salinity = drawn(cells, -1.0, 40.0, random);
  f.attenuation = drawn(cells, -0.1, 3.0, random);
  f.nitrogen = drawn(cells, -1.0, 30.0, random);
  f.current = drawn(cells, -0.02, 0.5, random);
  std::uniform_int_distribution<int> first(1, kDaysPerYear);
  std::uniform_int_distribution<int> length(1, kDaysPerYear);
  for (std::size_t i = 0; i < cells; ++i) {
    f.outplant.push_back(first(random));
    f.last_haul.push_back(f.outplant.back() + (i % 50 == 0 ? 1 : length(random)) - 1);
  }
  add_sun(f);
  return f;
}

std::array<double, kMonths> nodes_of(const NodeArray& array, std::size_t cells, std::size_t cell) {
  std::array<double, kMonths> nodes{};
  for (std::size_t month = 0; month < kMonths; ++month) {
    nodes[month] = array.values[(array.steady ? 0 : month * cells) + cell];
  }
  return nodes;
}

std::vector<DayForcing> forcing_of(const KernelForcing& f, std::size_t cell) {
  const auto temperature = nodes_of(f.temperature, f.cells, cell);
  const auto salinity = nodes_of(f.salinity, f.cells, cell);
  const auto attenuation = nodes_of(f.attenuation, f.cells, cell);
  const auto nitrogen = nodes_of(f.nitrogen, f.cells, cell);
  const auto current = nodes_of(f.current, f.cells, cell);
  std::vector<DayForcing> days;
  for (int day = f.outplant[cell]; day <= f.last_haul[cell]; ++day) {
    const SunDay sun = sun_of_day(kLatitude, day);
    const double radiation = f.radiation.values.empty()
                                 ? global_radiation_mj(0.5, sun.extraterrestrial_mj)
                                 : clamped_daily(nodes_of(f.radiation, f.cells, cell), day);
    days.push_back({daily_value(temperature, day), clamped_daily(salinity, day),
                    clamped_daily(attenuation, day), clamped_daily(nitrogen, day),
                    clamped_daily(current, day), par_below_surface(radiation), sun.day_length_h});
  }
  return days;
}

/// Greatest difference from the reference, relative to what was hauled, of yield and nitrogen.
double worst_error(const KernelForcing& f, const Husbandry& husbandry) {
  const KernelResult tile = grow_tile(f, husbandry, alga());
  double worst = 0.0;
  for (std::size_t i = 0; i < f.cells; ++i) {
    const SeasonResult season = grow_season(forcing_of(f, i), husbandry, alga());
    const double stocked = husbandry.stocking_g_per_m;
    const double stocked_n = stocked * alga().dry_to_fresh * alga().q_start;
    // A crop of which next to nothing is left is compared with a hundredth of what was stocked.
    const double hauled = std::max(season.yield_g_per_m + stocked, 0.01 * stocked);
    const double hauled_n = std::max(season.nitrogen_g_per_m + stocked_n, 0.01 * stocked_n);
    worst = std::max({worst, std::abs(tile.yield_g_per_m[i] - season.yield_g_per_m) / hauled,
                      std::abs(tile.nitrogen_g_per_m[i] - season.nitrogen_g_per_m) / hauled_n});
    CHECK(tile.harvests[i] == season.harvests);
  }
  return worst;
}

template <class T>
bool same_bytes(const std::vector<T>& a, const std::vector<T>& b) {
  return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(T)) == 0;
}

bool same_bytes(const KernelResult& a, const KernelResult& b) {
  bool same = same_bytes(a.yield_g_per_m, b.yield_g_per_m) &&
              same_bytes(a.nitrogen_g_per_m, b.nitrogen_g_per_m) &&
              same_bytes(a.harvests, b.harvests);
  for (std::size_t j = 0; j < kFactors; ++j) {
    same = same && same_bytes(a.mean_factor[j], b.mean_factor[j]);
  }
  return same;
}

}  // namespace

TEST_CASE("2000 random seasons agree with the double reference") {
  CHECK(worst_error(random_tile(2000, 1), Husbandry{}) < 1e-5);
}

TEST_CASE("the kernel agrees with the reference for other husbandry") {
  CHECK(worst_error(random_tile(300, 2), {0.1, 400.0, 30, 0.9}) < 1e-5);
  CHECK(worst_error(random_tile(300, 3), {3.0, 50.0, 1, 0.0}) < 1e-5);
  CHECK(worst_error(random_tile(300, 4), {1.0, 100.0, 1000, 1.0}) < 1e-5);
}

TEST_CASE("steady properties and given radiation agree with the reference") {
  std::mt19937 random(5);
  KernelForcing f = random_tile(300, 5);
  f.temperature = drawn(f.cells, 10.0, 33.0, random, true);
  f.salinity = drawn(f.cells, 12.0, 40.0, random, true);
  f.attenuation = drawn(f.cells, 0.2, 2.0, random, true);
  f.nitrogen = drawn(f.cells, 0.1, 20.0, random, true);
  f.current = drawn(f.cells, 0.0, 0.4, random, true);
  CHECK(worst_error(f, Husbandry{}) < 1e-5);
  f.radiation = drawn(f.cells, -2.0, 30.0, random);
  f.sun_radiation_mj = {};
  CHECK(worst_error(f, Husbandry{}) < 1e-5);
}

TEST_CASE("the same bytes on every processor target") {
  const KernelForcing f = random_tile(1003, 6);
  const KernelResult first = grow_tile(f, Husbandry{}, alga());
  const std::int64_t supported = hwy::SupportedTargets();
  int targets = 0;
  for (std::int64_t rest = supported; rest != 0; rest &= rest - 1) {
    const std::int64_t target = rest & -rest;
    INFO(hwy::TargetName(target));
    hwy::SetSupportedTargetsForTest(target);
    CHECK(same_bytes(grow_tile(f, Husbandry{}, alga()), first));
    ++targets;
  }
  hwy::SetSupportedTargetsForTest(0);
  CHECK(targets >= 2);
}

TEST_CASE("the same bytes whichever thread and whichever neighbours a cell has") {
  const KernelForcing f = random_tile(517, 7);
  const KernelResult whole = grow_tile(f, Husbandry{}, alga());
  KernelResult other;
  std::thread([&] { other = grow_tile(f, Husbandry{}, alga()); }).join();
  CHECK(same_bytes(whole, other));
  for (const std::size_t cell : {std::size_t{0}, std::size_t{127}, std::size_t{300}, f.cells - 1}) {
    KernelForcing alone;
    alone.cells = 1;
    const auto pick = [&](const NodeArray& from) {
      NodeArray one;
      for (std::size_t month = 0; month < kMonths; ++month) {
        one.values.push_back(from.values[month * f.cells + cell]);
      }
      return one;
    };
    alone.temperature = pick(f.temperature);
    alone.salinity = pick(f.salinity);
    alone.attenuation = pick(f.attenuation);
    alone.nitrogen = pick(f.nitrogen);
    alone.current = pick(f.current);
    alone.outplant = {f.outplant[cell]};
    alone.last_haul = {f.last_haul[cell]};
    add_sun(alone);
    const KernelResult one = grow_tile(alone, Husbandry{}, alga());
    CHECK(one.yield_g_per_m[0] == whole.yield_g_per_m[cell]);
    CHECK(one.nitrogen_g_per_m[0] == whole.nitrogen_g_per_m[cell]);
    CHECK(one.harvests[0] == whole.harvests[cell]);
  }
}

TEST_CASE("a cell without a season yields nothing; no cells give no results") {
  KernelForcing f = random_tile(3, 8);
  f.outplant = {1, 200, 1};
  f.last_haul = {0, 240, 0};
  f.temperature = {{22.0F, 22.0F, 22.0F}, true};
  f.salinity = {{28.0F, 28.0F, 28.0F}, true};
  f.attenuation = {{0.5F, 0.5F, 0.5F}, true};
  f.nitrogen = {{5.0F, 5.0F, 5.0F}, true};
  const KernelResult tile = grow_tile(f, Husbandry{}, alga());
  CHECK(tile.yield_g_per_m[0] == 0.0F);
  CHECK(tile.nitrogen_g_per_m[2] == 0.0F);
  CHECK(tile.harvests[0] == 0);
  CHECK(tile.mean_factor[0][0] == 0.0F);
  CHECK(tile.harvests[1] == 3);  // after 14 and 28 days, and the last haul on day 41
  CHECK(grow_tile(KernelForcing{}, Husbandry{}, alga()).yield_g_per_m.empty());
}

TEST_CASE("mean factors are means over the season's days, light capped at 1") {
  const KernelForcing f = random_tile(60, 9);
  const KernelResult tile = grow_tile(f, Husbandry{}, alga());
  for (std::size_t i = 0; i < f.cells; ++i) {
    std::array<double, kFactors> mean{};
    const SeasonResult season = grow_season(forcing_of(f, i), Husbandry{}, alga());
    for (const DayTrace& day : season.days) {
      const std::array<double, kFactors> factors{day.f_temperature, day.f_salinity,
                                                 std::min(1.0, day.f_light), day.f_nitrogen,
                                                 day.f_density};
      for (std::size_t j = 0; j < kFactors; ++j) {
        mean[j] += factors[j] / static_cast<double>(season.days.size());
      }
    }
    for (std::size_t j = 0; j < kFactors; ++j) {
      CHECK(tile.mean_factor[j][i] == Approx(mean[j]).epsilon(2e-5).margin(2e-6));
    }
  }
}

TEST_CASE("latitude weight leads from the first sun table to the second") {
  std::mt19937 random(10);
  KernelForcing f = random_tile(3, 10);
  for (NodeArray* array : {&f.temperature, &f.salinity, &f.attenuation, &f.nitrogen, &f.current}) {
    *array = NodeArray{std::vector<float>(3, array == &f.temperature ? 22.0F
                                             : array == &f.salinity  ? 28.0F
                                                                     : 0.5F),
                       true};
  }
  f.outplant.assign(3, 150);
  f.last_haul.assign(3, 250);
  for (float& radiation : f.sun_radiation_mj[1]) {
    radiation *= 0.5F;
  }
  f.latitude_weight = {0.0F, 0.5F, 1.0F};
  const KernelResult tile = grow_tile(f, Husbandry{}, alga());
  CHECK(tile.yield_g_per_m[0] > tile.yield_g_per_m[1]);
  CHECK(tile.yield_g_per_m[1] > tile.yield_g_per_m[2]);
}

TEST_CASE("a salinity curve with a step is followed on both sides of it") {
  AlgaConstants c = alga();
  c.salinity = Curve({{20.0, 0.2}, {20.0, 1.0}, {30.0, 0.5}});
  KernelForcing f = random_tile(3, 11);
  f.salinity = {{19.999F, 20.0F, 25.0F}, true};
  f.outplant.assign(3, 150);
  f.last_haul.assign(3, 160);
  const KernelResult tile = grow_tile(f, Husbandry{}, c);
  CHECK(tile.mean_factor[1][0] == Approx(0.2).epsilon(1e-6));
  CHECK(tile.mean_factor[1][1] == Approx(1.0).epsilon(1e-6));
  CHECK(tile.mean_factor[1][2] == Approx(0.75).epsilon(1e-6));
}
