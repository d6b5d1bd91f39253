// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/kelp.hpp"

#include <hwy/targets.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <thread>

#include "growth/kelp_day.hpp"
#include "support/random_seasons.hpp"
#include "tidelot/growth/crop_model.hpp"
#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/season/sun.hpp"

using namespace tidelot;

namespace {

const KelpConstants& sugar_kelp() {
  static const KelpConstants kKelp = kelp_constants(built_in_crop("sugar-kelp"));
  return kKelp;
}

constexpr DayForcing kSpring{8.0, 30.0, 0.4, 12.0, 0.15, 25.0, 12.5, 0.9};

std::vector<DayForcing> steady_days(std::size_t count, const DayForcing& day = kSpring) {
  return std::vector<DayForcing>(count, day);
}

double yield_of(const DayForcing& day) {
  return grow_season(steady_days(60, day), {}, sugar_kelp()).yield_g_per_m;
}

/// A tile of random water, some of it below 0, with seasons of all lengths.
KernelForcing random_tile(std::size_t cells, unsigned seed) {
  std::mt19937 random(seed);
  const auto drawn = [&](double low, double high) {
    std::uniform_real_distribution<double> between(low, high);
    NodeArray array;
    for (std::size_t i = 0; i < cells * kMonths; ++i) {
      array.values.push_back(static_cast<float>(between(random)));
    }
    return array;
  };
  KernelForcing f;
  f.cells = cells;
  f.temperature = drawn(-1.0, 22.0);
  f.salinity = drawn(-1.0, 36.0);
  f.attenuation = drawn(-0.1, 2.0);
  f.nitrogen = drawn(-1.0, 30.0);
  f.current = drawn(-0.02, 0.5);
  for (std::size_t i = 0; i < cells; ++i) {
    f.outplant.push_back(static_cast<int>(1 + random() % 365));
    f.last_haul.push_back(f.outplant.back() + static_cast<int>(i % 50 == 0 ? 0 : random() % 365));
  }
  const auto change = day_length_changes(sun_of_year(44.0));
  for (std::size_t end = 0; end < 2; ++end) {
    for (int day = 1; day <= kDaysPerYear; ++day) {
      const SunDay sun = sun_of_day(44.0, day);
      f.sun_radiation_mj[end].push_back(
          static_cast<float>(global_radiation_mj(0.5, sun.extraterrestrial_mj)));
      f.sun_day_length_h[end].push_back(static_cast<float>(sun.day_length_h));
      f.sun_day_length_change[end].push_back(
          static_cast<float>(change[static_cast<std::size_t>(day - 1)]));
    }
  }
  f.latitude_weight.assign(cells, 0.0F);
  return f;
}

std::vector<DayForcing> forcing_of(const KernelForcing& f, std::size_t cell) {
  const auto nodes = [&](const NodeArray& from) {
    std::array<double, kMonths> out{};
    for (std::size_t month = 0; month < kMonths; ++month) {
      out[month] = static_cast<double>(from.values[month * f.cells + cell]);
    }
    return out;
  };
  const auto change = day_length_changes(sun_of_year(44.0));
  std::vector<DayForcing> days;
  for (int day = f.outplant[cell]; day <= f.last_haul[cell]; ++day) {
    const SunDay sun = sun_of_day(44.0, day);
    days.push_back({daily_value(nodes(f.temperature), day), clamped_daily(nodes(f.salinity), day),
                    clamped_daily(nodes(f.attenuation), day), clamped_daily(nodes(f.nitrogen), day),
                    clamped_daily(nodes(f.current), day),
                    par_below_surface(global_radiation_mj(0.5, sun.extraterrestrial_mj)),
                    sun.day_length_h, change[static_cast<std::size_t>((day - 1) % kDaysPerYear)]});
  }
  return days;
}

}  // namespace

TEST_CASE("kelp: no days give an empty season; one day is one haul") {
  CHECK(grow_season({}, {}, sugar_kelp()).harvests == 0);
  const SeasonResult one = grow_season(steady_days(1), {}, sugar_kelp());
  CHECK(one.harvests == 1);
  CHECK(one.days[0].harvest_g_per_m == one.days[0].biomass_g_per_m);
}

TEST_CASE("kelp: hauled once, on the last day, net of the seeded fronds") {
  const KelpConstants& k = sugar_kelp();
  const SeasonResult season = grow_season(steady_days(50), {1.0, 100.0, 14, 0.4}, k);
  for (std::size_t i = 0; i + 1 < season.days.size(); ++i) {
    CHECK(season.days[i].harvest_g_per_m == 0.0);
  }
  const double seeded = k.fronds_per_m * kelp::wet_weight({k.start_area, k.start_n, k.start_c}, k);
  CHECK(season.yield_g_per_m == Approx(season.days.back().harvest_g_per_m - seeded));
  CHECK(season.harvests == 1);
  // what is cut back elsewhere does not count here
  CHECK(grow_season(steady_days(50), {1.0, 999.0, 3, 0.4}, k).yield_g_per_m ==
        season.yield_g_per_m);
}

TEST_CASE("kelp: nitrogen hauled is the haul's dry weight times its tissue nitrogen") {
  const KelpConstants& k = sugar_kelp();
  const SeasonResult season = grow_season(steady_days(80), {}, k);
  const Frond seed{k.start_area, k.start_n, k.start_c};
  const double hauled = season.nitrogen_g_per_m + k.fronds_per_m * kelp::total_nitrogen(seed, k);
  const double dry = hauled / season.days.back().tissue_n;
  const double dry_to_fresh = dry / season.days.back().harvest_g_per_m;
  CHECK((dry_to_fresh > 0.075 && dry_to_fresh < 0.18));
}

TEST_CASE("kelp: each property pushes the yield the way it should") {
  const double yield = yield_of(kSpring);
  const auto with = [](auto change) {
    DayForcing day = kSpring;
    change(day);
    return yield_of(day);
  };
  CHECK(with([](DayForcing& d) { d.temperature = 2.0; }) < yield);
  CHECK(with([](DayForcing& d) { d.temperature = 20.0; }) < 0.0);
  CHECK(with([](DayForcing& d) { d.salinity = 15.0; }) < yield);
  CHECK(with([](DayForcing& d) { d.attenuation = 3.0; }) < yield);
  CHECK(with([](DayForcing& d) { d.nitrogen = 0.5; }) < yield);
  CHECK(with([](DayForcing& d) { d.current = 0.0; }) < yield);
  CHECK(with([](DayForcing& d) { d.day_length_change = -0.9; }) < yield);
}

TEST_CASE("kelp: only the nitrate part of dissolved nitrogen feeds it") {
  const std::vector<DayForcing> days = steady_days(60);
  std::vector<DayForcing> half = days;
  for (DayForcing& day : half) {
    day.nitrogen *= 0.5;
  }
  CHECK(grow_season(days, {1.0, 0.0, 1, 0.5}, sugar_kelp()).yield_g_per_m ==
        Approx(grow_season(half, {1.0, 0.0, 1, 0.0}, sugar_kelp()).yield_g_per_m));
  CHECK(grow_season(days, {1.0, 0.0, 1, 1.0}, sugar_kelp()).uptake_g_per_m ==
        Approx(0.0).margin(1e-9));
}

TEST_CASE("kelp: in the dark a frond burns its reserve, then its structure, and is lost") {
  DayForcing dark = kSpring;
  dark.par_mol = 0.0;
  const SeasonResult season = grow_season(steady_days(120, dark), {}, sugar_kelp());
  CHECK(season.yield_g_per_m < 0.0);
  CHECK(season.days.back().f_light == 0.0);
  CHECK(season.days.back().biomass_g_per_m > 0.0);
  CHECK(season.lost_n_g_per_m > 0.0);
  DayForcing night = dark;
  night.day_length_h = 0.0;
  CHECK(grow_season(steady_days(120, night), {}, sugar_kelp()).yield_g_per_m < 0.0);
}

TEST_CASE("kelp: the light of day and canopy is that of many points") {
  const KelpConstants& k = sugar_kelp();
  const double inhibition = kelp_inhibition(8.0, k);
  for (const double dry : {0.0, 300.0, 1500.0}) {
    const double noon =
        noon_flux(kSpring.par_mol, kSpring.day_length_h) * std::exp(-kSpring.attenuation * 0.5);
    const double shading = kSpring.attenuation + k.shade_m2_per_g * dry / k.canopy_width_m;
    double sum = 0.0;
    for (int t = 0; t < 400; ++t) {
      for (int z = 0; z < 200; ++z) {
        sum += kelp::photosynthesis(
            noon * std::sin(M_PI * (t + 0.5) / 400) * std::exp(-shading * (z + 0.5) / 200),
            inhibition, k);
      }
    }
    CHECK(mean_photosynthesis(kSpring, dry, inhibition, {1.0}, k) ==
          Approx(sum / 80000).epsilon(0.03));
  }
}

TEST_CASE("kelp: six steps a day grow what two hundred do, within 0.2 %") {
  const KelpConstants& k = sugar_kelp();
  for (const double par : {6.0, 25.0}) {
    DayForcing day = kSpring;
    day.par_mol = par;
    Frond few{k.start_area, k.start_n, k.start_c};
    Frond many = few;
    for (int i = 0; i < 120; ++i) {
      const double inhibition = kelp_inhibition(day.temperature, k);
      grow_frond(few, kelp_rates(day, few, inhibition, {}, k), k);
      grow_frond(many, kelp_rates(day, many, inhibition, {}, k), k, 200);
    }
    CHECK(kelp::wet_weight(few, k) == Approx(kelp::wet_weight(many, k)).epsilon(0.002));
    CHECK(kelp::total_nitrogen(few, k) == Approx(kelp::total_nitrogen(many, k)).epsilon(0.002));
  }
}

TEST_CASE("kelp: inhibition at its ends stays finite") {
  const KelpConstants& k = sugar_kelp();
  CHECK(kelp::photosynthesis(100.0, kelp::inhibition(0.0, k), k) < 2e-5);
  CHECK(kelp::photosynthesis(0.0, kelp::inhibition(1e-3, k), k) == 0.0);
  CHECK(std::isfinite(kelp::photosynthesis(2000.0, kelp::inhibition(1.0, k), k)));
  CHECK(kelp::erosion(1e5, k) == Approx(1.0));
}

/// Greatest difference of the tile from the reference in yield and nitrogen, relative to what is
/// hauled or, where that is more, seeded.
double worst_error(const KernelForcing& f, const Husbandry& husbandry, const KelpConstants& k) {
  const KernelResult tile = grow_tile(f, husbandry, k);
  const Frond seed{k.start_area, k.start_n, k.start_c};
  const double seeded = k.fronds_per_m * kelp::wet_weight(seed, k);
  const double seeded_n = k.fronds_per_m * kelp::total_nitrogen(seed, k);
  double worst = 0.0;
  for (std::size_t i = 0; i < f.cells; ++i) {
    const SeasonResult season = grow_season(forcing_of(f, i), husbandry, k);
    const double hauled = std::max(season.yield_g_per_m + seeded, seeded);
    const double hauled_n = std::max(season.nitrogen_g_per_m + seeded_n, seeded_n);
    worst = std::max(
        {worst,
         std::abs(static_cast<double>(tile.yield_g_per_m[i]) - season.yield_g_per_m) / hauled,
         std::abs(static_cast<double>(tile.nitrogen_g_per_m[i]) - season.nitrogen_g_per_m) /
             hauled_n});
    double light = 0.0;
    for (const DayTrace& day : season.days) {
      light += day.f_light / static_cast<double>(season.days.size());
    }
    REQUIRE(static_cast<double>(tile.mean_factor[2][i]) == Approx(light).margin(1e-4));
    REQUIRE(tile.harvests[i] == season.harvests);
  }
  return worst;
}

TEST_CASE("kelp: 2000 random seasons of the tile agree with the reference") {
  CHECK(worst_error(random_tile(1000, 1), {}, sugar_kelp()) < 5e-6);
  const KelpConstants blade =
      kelp_constants(built_in_crop("sugar-kelp"), BoundaryLayer::mass_transfer);
  Husbandry fixed;
  fixed.line_depth_m = 1.6;
  fixed.tide_m = 2.0;
  CHECK(worst_error(random_tile(1000, 4), fixed, blade) < 5e-6);
}

TEST_CASE("kelp: ammonium of its own takes the nitrate's place") {
  KernelForcing f = random_tile(300, 5);
  f.ammonium = f.nitrogen;
  for (float& value : f.ammonium.values) {
    value *= 0.4F;
  }
  const KernelResult given = grow_tile(f, {}, sugar_kelp());
  f.ammonium = {};
  Husbandry by_share;
  by_share.nh4_share = 0.4;
  const KernelResult shared = grow_tile(f, by_share, sugar_kelp());
  for (std::size_t i = 0; i < f.cells; ++i) {
    REQUIRE(given.nitrogen_g_per_m[i] ==
            Approx(shared.nitrogen_g_per_m[i]).epsilon(1e-4).margin(0.01));
  }
}

TEST_CASE("kelp: the same bytes on every processor target that fuses, and on those that do not") {
  const KernelForcing f = random_tile(300, 6);
  CHECK(random_seasons::check_targets([&] { return grow_tile(f, {}, sugar_kelp()); }) >= 2);
}

TEST_CASE("kelp: the same bits whichever thread; no season yields nothing") {
  KernelForcing f = random_tile(40, 2);
  f.outplant[7] = 1;
  f.last_haul[7] = 0;
  const KernelResult here = grow_tile(f, {}, sugar_kelp());
  KernelResult there;
  std::thread([&] { there = grow_tile(f, {}, CropModel(sugar_kelp())); }).join();
  CHECK(here.yield_g_per_m == there.yield_g_per_m);
  CHECK(here.nitrogen_g_per_m == there.nitrogen_g_per_m);
  CHECK(here.yield_g_per_m[7] == 0.0F);
  CHECK(here.harvests[7] == 0);
  CHECK(grow_tile(KernelForcing{}, {}, sugar_kelp()).yield_g_per_m.empty());
}

TEST_CASE("kelp: given radiation and steady properties are used") {
  KernelForcing f = random_tile(2, 3);
  f.temperature = {{8.0F, 8.0F}, true};
  f.salinity = {{30.0F, 30.0F}, true};
  f.attenuation = {{0.4F, 0.4F}, true};
  f.nitrogen = {{12.0F, 12.0F}, true};
  f.current = {{0.15F, 0.15F}, true};
  f.outplant = {330, 330};
  f.last_haul = {480, 480};
  const float sunny = grow_tile(f, {}, sugar_kelp()).yield_g_per_m[0];
  f.radiation.values.assign(2 * kMonths, 0.5F);
  CHECK(grow_tile(f, {}, sugar_kelp()).yield_g_per_m[0] < 0.5F * sunny);
}

TEST_CASE("inhibition is the same from near by as from anywhere, and gives p_max at saturation") {
  const KelpConstants k = kelp_constants(built_in_crop("sugar-kelp"));
  double last = kelp::inhibition(kelp::p_max(-10.0, k), k);
  for (double t = -10.0; t <= 40.0; t += 0.1) {
    const double p_max = kelp::p_max(t, k);
    const double anywhere = kelp::inhibition(p_max, k);
    for (const double near : {last, anywhere, 1e-3, 1e3}) {
      CHECK(kelp::inhibition_near(p_max, near, k) == Approx(anywhere).epsilon(1e-9));
    }
    last = anywhere;
  }
}

TEST_CASE("the model follows the profile") {
  CHECK(std::holds_alternative<KelpConstants>(
      crop_model(built_in_crop("sugar-kelp"), BoundaryLayer::current)));
  CHECK(std::holds_alternative<AlgaConstants>(
      crop_model(built_in_crop("warm-red-alga"), BoundaryLayer::current)));
  const CropModel model = crop_model(built_in_crop("sugar-kelp"), BoundaryLayer::current);
  CHECK(grow_season(steady_days(20), {}, model).yield_g_per_m ==
        grow_season(steady_days(20), {}, sugar_kelp()).yield_g_per_m);
}
