// SPDX-License-Identifier: Apache-2.0
// Random water and random seasons, for the reference and for the tile kernel, and how to compare
// the two.
#pragma once

#include <hwy/targets.h>

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <optional>
#include <random>
#include <span>
#include <vector>

#include "tidelot/growth/model.hpp"
#include "tidelot/growth/tile_kernel.hpp"
#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/season/daily.hpp"
#include "tidelot/season/sun.hpp"

namespace tidelot::random_seasons {

inline const AlgaConstants& alga() {
  static const AlgaConstants kAlga = alga_constants(built_in_crop("warm-red-alga"));
  return kAlga;
}

inline double between(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

/// Any day that a sea could have, and many that none has; a quarter are without nitrogen.
inline DayForcing random_day(std::mt19937& random) {
  return {between(random, -2.0, 38.0), between(random, 0.0, 45.0),
          between(random, 0.0, 5.0),   random() % 4 == 0 ? 0.0 : between(random, 0.0, 60.0),
          between(random, 0.0, 0.6),   between(random, 0.0, 65.0),
          between(random, 0.0, 24.0)};
}

inline std::vector<DayForcing> random_days(std::mt19937& random) {
  std::vector<DayForcing> days(1 + random() % 364);
  const bool calm = random() % 2 == 0;  // half of the seasons change slowly
  for (std::size_t i = 0; i < days.size(); ++i) {
    days[i] = calm && i % 20 != 0 ? days[i - 1] : random_day(random);
  }
  return days;
}

inline Husbandry random_husbandry(std::mt19937& random) {
  return {between(random, 0.0, 4.0), between(random, 1.0, 1000.0),
          static_cast<int>(1 + random() % 60), between(random, 0.0, 1.0)};
}

inline constexpr double kLatitude = 41.0;

/// n cells whose months are drawn anew between low and high.
inline NodeArray drawn(std::size_t cells, double low, double high, std::mt19937& random,
                       bool steady = false) {
  std::uniform_real_distribution<double> between(low, high);
  NodeArray array{{}, steady};
  for (std::size_t i = 0; i < cells * (steady ? 1 : kMonths); ++i) {
    array.values.push_back(static_cast<float>(between(random)));
  }
  return array;
}

inline void add_sun(KernelForcing& f) {
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
inline KernelForcing random_tile(std::size_t cells, unsigned seed) {
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

inline std::array<double, kMonths> nodes_of(const NodeArray& array, std::size_t cells,
                                            std::size_t cell) {
  std::array<double, kMonths> nodes{};
  for (std::size_t month = 0; month < kMonths; ++month) {
    nodes[month] = array.values[(array.steady ? 0 : month * cells) + cell];
  }
  return nodes;
}

inline std::vector<DayForcing> forcing_of(const KernelForcing& f, std::size_t cell) {
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

/// Greatest difference from the reference, relative to what was hauled or, where that is more,
/// stocked, of yield and nitrogen.
inline double worst_error(const KernelForcing& f, const Husbandry& husbandry,
                          const AlgaConstants& crop = alga()) {
  const KernelResult tile = grow_tile(f, husbandry, crop);
  double worst = 0.0;
  for (std::size_t i = 0; i < f.cells; ++i) {
    const SeasonResult season = grow_season(forcing_of(f, i), husbandry, crop);
    const double stocked = husbandry.stocking_g_per_m;
    const double stocked_n = stocked * crop.dry_to_fresh * crop.q_start;
    // A crop of which less is hauled than was stocked is compared with what was stocked: the float
    // that holds the difference has no more digits.
    const double hauled = std::max(season.yield_g_per_m + stocked, stocked);
    const double hauled_n = std::max(season.nitrogen_g_per_m + stocked_n, stocked_n);
    worst = std::max({worst, std::abs(tile.yield_g_per_m[i] - season.yield_g_per_m) / hauled,
                      std::abs(tile.nitrogen_g_per_m[i] - season.nitrogen_g_per_m) / hauled_n});
    CHECK(tile.harvests[i] == season.harvests);
  }
  return worst;
}

/// Some cells of a tile, in the order given.
inline KernelForcing chosen(const KernelForcing& f, std::span<const std::size_t> cells) {
  const auto pick = [&](const NodeArray& from) {
    NodeArray to{{}, from.steady};
    for (std::size_t row = 0; row * f.cells < from.values.size(); ++row) {
      for (const std::size_t cell : cells) {
        to.values.push_back(from.values[row * f.cells + cell]);
      }
    }
    return to;
  };
  KernelForcing out = f;
  out.cells = cells.size();
  out.temperature = pick(f.temperature);
  out.salinity = pick(f.salinity);
  out.attenuation = pick(f.attenuation);
  out.nitrogen = pick(f.nitrogen);
  out.current = pick(f.current);
  out.radiation = pick(f.radiation);
  out.outplant.clear();
  out.last_haul.clear();
  out.latitude_weight.clear();
  for (const std::size_t cell : cells) {
    out.outplant.push_back(f.outplant[cell]);
    out.last_haul.push_back(f.last_haul[cell]);
    out.latitude_weight.push_back(f.latitude_weight[cell]);
  }
  return out;
}

template <class T>
bool same_bytes(const std::vector<T>& a, const std::vector<T>& b) {
  return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(T)) == 0;
}

inline bool same_bytes(const KernelResult& a, const KernelResult& b) {
  bool same = same_bytes(a.yield_g_per_m, b.yield_g_per_m) &&
              same_bytes(a.nitrogen_g_per_m, b.nitrogen_g_per_m) &&
              same_bytes(a.harvests, b.harvests);
  for (std::size_t j = 0; j < kFactors; ++j) {
    same = same && same_bytes(a.mean_factor[j], b.mean_factor[j]);
  }
  return same;
}

/// Targets that multiply and add with one rounding: all of these give the same bytes.
inline constexpr std::int64_t kFused =
    HWY_AVX2 | HWY_AVX3 | HWY_AVX3_DL | HWY_NEON | HWY_SVE | HWY_SVE2;

/// The largest difference of yield, relative to the largest yield.
inline float yield_difference(const KernelResult& a, const KernelResult& b) {
  float largest = 0.0F;
  float most = 0.0F;
  for (std::size_t i = 0; i < a.yield_g_per_m.size(); ++i) {
    largest = std::max(largest, std::abs(a.yield_g_per_m[i]));
    most = std::max(most, std::abs(a.yield_g_per_m[i] - b.yield_g_per_m[i]));
  }
  return most / largest;
}

/// Grows on every target of this processor: those that fuse give the bytes of each other, and so do
/// those that do not; the two differ in the last places. How many targets there are.
template <typename Grow>
int check_targets(const Grow& grow) {
  std::optional<KernelResult> fused, apart;
  int targets = 0;
  // Some processors have targets that are not compiled: the kernel would take another instead.
  for (std::int64_t rest = hwy::SupportedTargets() & HWY_TARGETS; rest != 0; rest &= rest - 1) {
    const std::int64_t target = rest & -rest;
    INFO(hwy::TargetName(target));
    hwy::SetSupportedTargetsForTest(target);
    const KernelResult grown = grow();
    std::optional<KernelResult>& first = (target & kFused) != 0 ? fused : apart;
    if (first) {
      CHECK(same_bytes(grown, *first));
    } else {
      first = grown;
    }
    ++targets;
  }
  hwy::SetSupportedTargetsForTest(0);
  if (fused && apart) {
    CHECK(yield_difference(*fused, *apart) < 2e-6F);
    CHECK(fused->harvests == apart->harvests);
  }
  return targets;
}

}  // namespace tidelot::random_seasons
