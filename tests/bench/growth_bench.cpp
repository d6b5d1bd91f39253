// SPDX-License-Identifier: Apache-2.0
// Cell-days a second of the tile kernels of both crops and of the double references, on one core,
// and cells a second of the season's window: monthly temperature, salinity, attenuation and
// nitrogen that differ from cell to cell, a steady current, 214 days. And the operations that the
// core can do at most, to hold those of the kernel against. growth_scalar_bench is the same program
// without vectors.
#include <benchmark/benchmark.h>

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "bench/growth_bench.cpp"  // this file, once a target
#include <hwy/foreach_target.h>
// after foreach_target
#include <hwy/highway.h>

#include <array>
#include <random>

#include "tidelot/growth/kelp.hpp"
#include "tidelot/growth/model.hpp"
#include "tidelot/growth/tile_kernel.hpp"
#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/season/daily.hpp"
#include "tidelot/season/sun.hpp"
#include "tidelot/season/window.hpp"

HWY_BEFORE_NAMESPACE();
namespace tidelot::HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

constexpr std::size_t kTurns = 4096;

/// A turn of multiplying and adding for each of some chains that do not wait for each other.
template <class V, class... Chains>
HWY_INLINE void turn(V factor, V addend, Chains&... chains) {
  ((chains = hn::MulAdd(chains, factor, addend)), ...);
}

template <class... V>
HWY_INLINE auto largest(auto first, V... others) {
  ((first = hn::Max(first, others)), ...);
  return first;
}

/// As many operations as the core can do; how many that were.
std::size_t most_operations(float* sums) {
  const hn::ScalableTag<float> d;
  const auto factor = hn::Set(d, 0.999F), addend = hn::Set(d, 0.001F);
  auto a = addend, b = addend, c = addend, e = addend, f = addend, g = addend;
  auto h = addend, i = addend, j = addend, k = addend, l = addend, m = addend;
  for (std::size_t number = 0; number < kTurns; ++number) {
    turn(factor, addend, a, b, c, e, f, g, h, i, j, k, l, m);
  }
  hn::StoreU(largest(a, b, c, e, f, g, h, i, j, k, l, m), d, sums);
  return 2 * kTurns * 12 * hn::Lanes(d);
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace tidelot {
HWY_EXPORT(most_operations);
}

namespace {

using namespace tidelot;

void core(benchmark::State& state) {
  std::array<float, 64> sums{};
  std::size_t operations = 0;
  for ([[maybe_unused]] auto run : state) {
    operations += HWY_DYNAMIC_DISPATCH(most_operations)(sums.data());
    benchmark::DoNotOptimize(sums);
  }
  state.counters["operations"] =
      benchmark::Counter(static_cast<double>(operations), benchmark::Counter::kIsRate);
}
BENCHMARK(core);

constexpr int kFirst = 121;
constexpr int kLast = 334;
constexpr int kWinterFirst = 305;
constexpr double kLatitude = 41.0;

const AlgaConstants& alga() {
  static const AlgaConstants kAlga = alga_constants(built_in_crop("warm-red-alga"));
  return kAlga;
}

/// Twelve nodes that swing about a middle, with noise from cell to cell.
NodeArray nodes(std::size_t cells, double middle, double swing, double noise,
                std::mt19937& random) {
  NodeArray array;
  std::uniform_real_distribution<double> around(-noise, noise);
  for (int month = 0; month < kMonths; ++month) {
    const double value = middle - swing * std::cos(2.0 * 3.14159265 * (month - 0.5) / kMonths);
    for (std::size_t i = 0; i < cells; ++i) {
      array.values.push_back(static_cast<float>(value + around(random)));
    }
  }
  return array;
}

KernelForcing tile(std::size_t cells) {
  std::mt19937 random(7);
  KernelForcing f;
  f.cells = cells;
  f.temperature = nodes(cells, 13.0, 10.0, 0.5, random);
  f.salinity = nodes(cells, 27.0, 2.0, 1.0, random);
  f.attenuation = nodes(cells, 0.9, 0.2, 0.2, random);
  f.nitrogen = nodes(cells, 8.0, -4.0, 2.0, random);
  f.current = {std::vector<float>(cells, 0.15F), true};
  f.outplant.assign(cells, kFirst);
  f.last_haul.assign(cells, kLast);
  f.latitude_weight.assign(cells, 0.5F);
  for (int day = 1; day <= kDaysPerYear; ++day) {
    for (std::size_t i = 0; i < 2; ++i) {
      const SunDay sun = sun_of_day(kLatitude + 0.1 * static_cast<double>(i), day);
      f.sun_radiation_mj[i].push_back(
          static_cast<float>(global_radiation_mj(0.5, sun.extraterrestrial_mj)));
      f.sun_day_length_h[i].push_back(static_cast<float>(sun.day_length_h));
    }
  }
  return f;
}

void count(benchmark::State& state, std::size_t cells, const char* what, int days) {
  state.counters[what] = benchmark::Counter(static_cast<double>(cells) * days,
                                            benchmark::Counter::kIsIterationInvariantRate);
}

void kernel(benchmark::State& state) {
  const auto cells = static_cast<std::size_t>(state.range(0));
  const KernelForcing forcing = tile(cells);
  for ([[maybe_unused]] auto run : state) {
    benchmark::DoNotOptimize(grow_tile(forcing, Husbandry{}, alga()));
  }
  count(state, cells, "cell_days", kLast - kFirst + 1);
}
BENCHMARK(kernel)->Arg(1)->Arg(4096)->Arg(65536);

const KelpConstants& sugar_kelp() {
  static const KelpConstants kKelp = kelp_constants(built_in_crop("sugar-kelp"));
  return kKelp;
}

/// The same water over the winter, 214 days from 1 November.
KernelForcing winter_tile(std::size_t cells) {
  KernelForcing f = tile(cells);
  f.outplant.assign(cells, kWinterFirst);
  f.last_haul.assign(cells, kWinterFirst + kLast - kFirst);
  const auto change = day_length_changes(sun_of_year(kLatitude));
  for (auto& table : f.sun_day_length_change) {
    table.assign(change.begin(), change.end());
  }
  return f;
}

void kelp_kernel(benchmark::State& state) {
  const auto cells = static_cast<std::size_t>(state.range(0));
  const KernelForcing forcing = winter_tile(cells);
  for ([[maybe_unused]] auto run : state) {
    benchmark::DoNotOptimize(grow_tile(forcing, Husbandry{}, sugar_kelp()));
  }
  count(state, cells, "cell_days", kLast - kFirst + 1);
}
BENCHMARK(kelp_kernel)->Arg(1)->Arg(4096);

void kelp_reference(benchmark::State& state) {
  const DayForcing spring{8.0, 30.0, 0.4, 12.0, 0.15, 25.0, 12.5, 0.9};
  const std::vector<DayForcing> days(kLast - kFirst + 1, spring);
  for ([[maybe_unused]] auto run : state) {
    benchmark::DoNotOptimize(grow_season(days, Husbandry{}, sugar_kelp()));
  }
  count(state, 1, "cell_days", kLast - kFirst + 1);
}
BENCHMARK(kelp_reference);

void reference(benchmark::State& state) {
  std::vector<DayForcing> days;
  for (int day = kFirst; day <= kLast; ++day) {
    const SunDay sun = sun_of_day(kLatitude, day);
    const double radiation = global_radiation_mj(0.5, sun.extraterrestrial_mj);
    days.push_back({20.0, 28.0, 0.9, 6.0, 0.15, par_below_surface(radiation), sun.day_length_h});
  }
  for ([[maybe_unused]] auto run : state) {
    benchmark::DoNotOptimize(grow_season(days, Husbandry{}, alga()));
  }
  count(state, 1, "cell_days", kLast - kFirst + 1);
}
BENCHMARK(reference);

void window(benchmark::State& state) {
  constexpr std::size_t kCells = 4096;
  const KernelForcing forcing = tile(kCells);
  const WindowRules rules;
  for ([[maybe_unused]] auto run : state) {
    for (std::size_t i = 0; i < kCells; ++i) {
      std::array<float, kMonths> cell{};
      for (std::size_t month = 0; month < kMonths; ++month) {
        cell[month] = forcing.temperature.values[month * kCells + i];
      }
      benchmark::DoNotOptimize(season_window(cell, rules));
    }
  }
  count(state, kCells, "cells", 1);
}
BENCHMARK(window);

}  // namespace

BENCHMARK_MAIN();
#endif
