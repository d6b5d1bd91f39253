// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/criteria/wave_climate.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/report/map_writer.hpp"
#include "tidelot/report/report.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// Quantiles of the members, grid.size() values each; NaN where nothing was grown.
struct SpreadBands {
  std::vector<float> p10, p50, p90;
};
struct SpreadMaps {
  explicit SpreadMaps(std::size_t cells);
  SpreadBands yield_kg_per_m, nitrogen_g_per_m;
  std::vector<float> confidence;  ///< share of the members in which the cell is suitable, 0..1
};

/// What the tile loop keeps of every cell to tell what the water would be with other rules.
struct OpenWater {
  std::vector<float> suitability;            ///< as if nothing closed the cell; NaN land, not known
  std::vector<float> season_current;         ///< m/s, as held against [farm] max_current_m_s
  std::vector<std::uint32_t> rules_unknown;  ///< bits of the rules not known to hold in the season

  explicit OpenWater(std::size_t cells);
};

/// Every map of a run in memory, grid.size() values each, row by row.
struct Maps {
  std::vector<float> suitability, yield_kg_per_m, nitrogen_g_per_m, depth_low_water;
  std::vector<float> outplant, last_haul, harvests;
  std::vector<float> lowest;    ///< suitability by the lowest criterion; empty unless asked for
  std::vector<float> coverage;  ///< least share of neighbours with data among the layers, 0..1
  std::span<const float> landing_m;  ///< empty without a landing
  std::vector<float> axis_deg;       ///< of the current, from true north; empty where nothing says
  const WaveMaps* waves = nullptr;   ///< null where the plan names no winds
  std::optional<SpreadMaps> spread;  ///< none: the best estimate only
  std::optional<OpenWater> open;     ///< none unless asked for
  std::vector<std::uint32_t> closed;
  std::vector<std::uint8_t> reason;
  std::vector<std::uint8_t> depth_source;  ///< which of several files, kNoSource; empty: one file

  /// with_lowest: also keep the lowest criterion's score.
  explicit Maps(std::size_t cells, bool with_lowest = false, std::size_t depth_sources = 1);
  [[nodiscard]] ScoredMaps view() const;
};

/// The files of maps/ with their units, descriptions and tables.
[[nodiscard]] std::vector<MapFile> map_files(const Maps& maps, const Plan& plan);

/// Counts over the grid, in row order.
[[nodiscard]] RunCounts count(const Maps& maps, const Grid& grid, double areal_scale);

}  // namespace tidelot::run
