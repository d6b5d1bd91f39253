// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "run/memory/mapped_cells.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/criteria/wave_climate.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/report/report.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// Quantiles of the members, grid.size() values each; NaN where nothing was grown.
struct SpreadBands {
  std::span<float> p10, p50, p90;
};
struct SpreadMaps {
  SpreadBands yield_kg_per_m, nitrogen_g_per_m;
  std::span<float> confidence;  ///< share of the members in which the cell is suitable, 0..1
};

/// What the tile loop keeps of every cell to tell what the water would be with other rules.
struct OpenWater {
  std::span<float> suitability;            ///< as if nothing closed the cell; NaN land, not known
  std::span<float> season_current;         ///< m/s, as held against [farm] max_current_m_s
  std::span<std::uint32_t> rules_unknown;  ///< bits of the rules not known to hold in the season
};

/// Which maps a run keeps besides those that every run has.
struct MapChoice {
  bool lowest = false;            ///< the lowest criterion's score
  bool axis = false;              ///< the current's axis
  bool spread = false;            ///< the members' quantiles
  bool open = false;              ///< what other rules would leave
  std::size_t depth_sources = 1;  ///< more than one: which of them
};

/// Every map of a run, grid.size() values each, row by row. They start as not known, but scratch().
struct Maps {
  std::span<float> suitability, yield_kg_per_m, nitrogen_g_per_m, depth_low_water;
  std::span<float> outplant, last_haul, harvests;
  std::span<float> lowest;    ///< suitability by the lowest criterion; empty unless asked for
  std::span<float> coverage;  ///< least share of neighbours with data among the layers, 0..1
  std::span<const float> landing_m;  ///< empty without a landing
  std::span<float> axis_deg;         ///< of the current, from true north; empty unless asked for
  const WaveMaps* waves = nullptr;   ///< null where the plan names no winds
  std::optional<SpreadMaps> spread;  ///< none: the best estimate only
  std::optional<OpenWater> open;     ///< none unless asked for
  std::span<std::uint32_t> closed;
  std::span<std::uint8_t> reason;
  std::span<std::uint8_t> depth_source;  ///< which of several files, kNoSource; empty: one file

  /// In memory.
  explicit Maps(std::size_t cells, const MapChoice& choice = {});
  /// In memory that is taken tile by tile as they are cleared, for those who keep few tiles; what
  /// was not cleared holds nothing sensible.
  [[nodiscard]] static Maps scratch(std::size_t cells, const MapChoice& choice);
  /// In a file, as MappedCells; what stood in it stays.
  Maps(std::size_t cells, const MapChoice& choice, const std::filesystem::path& file);

  [[nodiscard]] ScoredMaps view() const;
  /// Sets a tile of a grid back to not known.
  void clear(const Grid& grid, const Tile& tile);
  /// A tile's cells, one map after the other, each row by row.
  [[nodiscard]] std::vector<std::byte> bytes_of(const Grid& grid, const Tile& tile) const;
  /// Puts back what bytes_of gave. bytes: of the same choice and tile.
  void put(const Grid& grid, const Tile& tile, std::span<const std::byte> bytes);
  /// Of all maps, one cell.
  [[nodiscard]] std::size_t bytes_a_cell() const;
  /// As MappedCells; no cell holds anything sensible then.
  void forget() noexcept { memory_.forget(); }

 private:
  /// One map as bytes.
  struct Plane {
    std::byte* first;
    std::size_t width;      ///< bytes a cell
    std::uint32_t unknown;  ///< what stands where nothing is known; its lowest byte for width 1
  };
  Maps(std::size_t cells, const MapChoice& choice, const std::filesystem::path* file);
  template <typename Work>
  void each_row(const Grid& grid, const Tile& tile, const Work& work) const;

  MappedCells memory_;
  std::vector<Plane> planes_;
};

}  // namespace tidelot::run
