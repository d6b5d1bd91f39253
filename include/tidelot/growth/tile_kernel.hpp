// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "tidelot/growth/model.hpp"
#include "tidelot/season/daily.hpp"
#include "tidelot/season/window.hpp"

namespace tidelot {

/// Twelve mid-month nodes for n cells: node k of cell i is values[k * n + i]. Steady properties
/// hold n values and steady = true; daily ones 365 n, a value a day.
struct NodeArray {
  std::vector<float> values;
  bool steady = false;
  bool daily = false;

  [[nodiscard]] std::size_t rows() const {
    return steady ? 1 : daily ? std::size_t{kDaysPerYear} : std::size_t{kMonths};
  }
};

/// The season's forcing for n cells, structure of arrays. No value is NaN: unknown cells are left
/// out before.
struct KernelForcing {
  std::size_t cells = 0;
  NodeArray temperature, salinity, attenuation, nitrogen, current;
  NodeArray ammonium;                    ///< of the nitrogen; empty: by the husbandry's share
  NodeArray radiation;                   ///< global, MJ m-2 d-1; empty: from the sun tables below
  std::vector<int> outplant, last_haul;  ///< as in SeasonWindow; last_haul < outplant: no season
  /// Sun at two latitudes that bracket the cells, for days 1..365, and each cell's place between
  /// (0 at the first, 1 at the second): global radiation is interpolated linearly in latitude.
  std::array<std::vector<float>, 2> sun_radiation_mj;  ///< MJ m-2 d-1 at the surface
  std::array<std::vector<float>, 2> sun_day_length_h;
  std::array<std::vector<float>, 2> sun_day_length_change;  ///< as in DayForcing; for kelp alone
  std::vector<float> latitude_weight;
};

/// What limits growth, in the order of KernelResult::mean_factor.
enum class Factor : std::uint8_t { temperature, salinity, light, nitrogen, crowding };
inline constexpr int kFactors = 5;

/// n values each.
struct KernelResult {
  std::vector<float> yield_g_per_m;
  std::vector<float> nitrogen_g_per_m;
  std::vector<std::uint16_t> harvests;
  std::array<std::vector<float>, kFactors> mean_factor;  ///< means over the season's days
};

/// The float32 season of many cells at once. Within 5e-6 of grow_season, of what is
/// hauled or, where that is more, stocked; the same
/// bits for any number of threads and any vector width.
[[nodiscard]] KernelResult grow_tile(const KernelForcing& forcing, const Husbandry& husbandry,
                                     const AlgaConstants& constants);

}  // namespace tidelot
