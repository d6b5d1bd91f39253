// SPDX-License-Identifier: Apache-2.0
#include "run/members/water_probe.hpp"

#include <algorithm>
#include <cmath>

#include "tidelot/core/draws.hpp"

namespace tidelot::run {
namespace {

constexpr std::size_t kAdded = 2;    // temperature and salinity; the others are factors
constexpr std::size_t kProbed = 16;  // members that are grown to see
constexpr float kSmall = 0.05F;      // a value below so much of its year's mean counts as that
constexpr std::array<float, kAdded> kStep{0.25F, 0.5F};  // degC, salinity
constexpr float kFactor = 0.05F;

float step_of(std::size_t property) { return property < kAdded ? kStep[property] : kFactor; }

std::array<NodeArray*, kWaterProperties> properties_of(KernelForcing& water) {
  return {&water.temperature, &water.salinity, &water.attenuation, &water.nitrogen,
          &water.current,     &water.ammonium, &water.radiation};
}

/// Copies of some cells, one for each property and way, and first the cells as they are.
KernelForcing changed_copies(const KernelForcing& cells) {
  const std::size_t n = cells.cells;
  std::vector<std::uint32_t> which;
  for (std::size_t copy = 0; copy < 1 + 2 * kWaterProperties; ++copy) {
    for (std::size_t i = 0; i < n; ++i) {
      which.push_back(static_cast<std::uint32_t>(i));
    }
  }
  KernelForcing out = subset(cells, which);
  const auto all = properties_of(out);
  for (std::size_t p = 0; p < kWaterProperties; ++p) {
    for (std::size_t row = 0; row < all[p]->rows() && !all[p]->values.empty(); ++row) {
      float* less = &all[p]->values[row * out.cells + (1 + 2 * p) * n];
      float* more = less + n;
      for (std::size_t i = 0; i < n; ++i) {
        if (p < kAdded) {
          less[i] -= kStep[p];
          more[i] += kStep[p];
        } else {
          less[i] *= 1.0F - kFactor;
          more[i] *= 1.0F + kFactor;
        }
      }
    }
  }
  return out;
}

}  // namespace

std::array<const NodeArray*, kWaterProperties> properties_of(const KernelForcing& water) {
  return {&water.temperature, &water.salinity, &water.attenuation, &water.nitrogen,
          &water.current,     &water.ammonium, &water.radiation};
}

std::vector<Sensitivity> sensitivities(const MemberGround& ground,
                                       std::span<const std::uint32_t> cells, const Members& members,
                                       LayerDraws& draws, std::size_t& seasons) {
  const std::size_t n = cells.size();
  std::vector<Sensitivity> out(n);
  if (n == 0) {
    return out;
  }
  const KernelForcing copies = changed_copies(ground.water(cells));
  std::vector<XY> places;
  for (std::size_t copy = 0; copy < 1 + 2 * kWaterProperties; ++copy) {
    for (const std::uint32_t cell : cells) {
      places.push_back(ground.place(cell));
    }
  }
  const MemberWater drawn(copies, members, draws.at(places));
  const std::size_t probed = std::min(kProbed, members.size());
  std::vector<std::array<std::vector<float>, 2>> change(n * kWaterProperties);
  std::vector<std::array<std::vector<float>, 2>> crop(n);
  KernelForcing water = copies;
  for (std::size_t k = 0; k < probed; ++k) {
    const std::size_t m = k * members.size() / probed;
    const SeasonSetup& setup = members.setup(m);
    drawn.put(m, water);
    static_cast<void>(put_windows(water, setup));
    const KernelResult grown = grow_tile(water, setup.husbandry(), setup.constants());
    for (std::size_t i = 0; i < n; ++i) {
      crop[i][0].push_back(grown.yield_g_per_m[i]);
      crop[i][1].push_back(grown.nitrogen_g_per_m[i]);
      for (std::size_t p = 0; p < kWaterProperties; ++p) {
        const auto most = [&](const std::vector<float>& of) {
          const std::size_t less = (1 + 2 * p) * n + i;
          return std::max(std::abs(of[less] - of[i]), std::abs(of[less + n] - of[i]));
        };
        change[i * kWaterProperties + p][0].push_back(most(grown.yield_g_per_m));
        change[i * kWaterProperties + p][1].push_back(most(grown.nitrogen_g_per_m));
      }
    }
  }
  seasons += copies.cells * probed;
  for (std::size_t i = 0; i < n; ++i) {
    const std::array<double, 2> stock{ground.stocked.fresh_g_per_m,
                                      ground.stocked.nitrogen_g_per_m};
    for (std::size_t q = 0; q < 2; ++q) {
      const double hauled = std::max(stock[q], stock[q] + quantiles_of(crop[i][q]).p50);
      for (std::size_t p = 0; p < kWaterProperties; ++p) {
        const auto& seen = change[i * kWaterProperties + p][q];
        const double per_unit = *std::max_element(seen.begin(), seen.end()) / hauled / step_of(p);
        out[i][p] = std::max(out[i][p], static_cast<float>(per_unit));
      }
    }
  }
  return out;
}

std::vector<float> off_by_water(const KernelForcing& water,
                                std::span<const std::array<float, 4>> shares,
                                const Sensitivity& sensitivity) {
  const std::size_t n = shares.size();
  std::vector<float> off(n, 0.0F), most(n), year(n);
  const auto all = properties_of(water);
  for (std::size_t p = 0; p < kWaterProperties; ++p) {
    if (all[p]->values.empty()) {
      continue;
    }
    std::fill(most.begin(), most.end(), 0.0F);
    std::fill(year.begin(), year.end(), 0.0F);
    const std::size_t rows = all[p]->rows();
    const bool added = p < kAdded;
    for (std::size_t row = 0; row < rows && !added; ++row) {
      for (std::size_t i = 0; i < n; ++i) {
        year[i] += all[p]->values[row * water.cells + i] * (kSmall / static_cast<float>(rows));
      }
    }
    for (std::size_t row = 0; row < rows; ++row) {
      const float* here = &all[p]->values[row * water.cells];
      const std::array<float, 4> corner{here[n], here[n + 1], here[n + 2], here[n + 3]};
      for (std::size_t i = 0; i < n; ++i) {
        const auto& w = shares[i];
        const float between =
            w[0] * corner[0] + w[1] * corner[1] + w[2] * corner[2] + w[3] * corner[3];
        const float unit = added ? 1.0F : std::max(std::abs(between), year[i]) + 1e-9F;
        most[i] = std::max(most[i], std::abs(here[i] - between) / unit);
      }
    }
    for (std::size_t i = 0; i < n; ++i) {
      off[i] += sensitivity[p] * most[i];
    }
  }
  return off;
}

}  // namespace tidelot::run
