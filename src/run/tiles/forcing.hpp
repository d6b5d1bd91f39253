// SPDX-License-Identifier: Apache-2.0
// From sampled layers to the forcing of the crop: the one place where the plan's sun, the monthly
// means and the layers meet.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "tidelot/growth/crop_model.hpp"
#include "tidelot/growth/limits.hpp"
#include "tidelot/growth/tile_kernel.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/season/daily.hpp"
#include "tidelot/season/sun.hpp"
#include "tidelot/season/window.hpp"

namespace tidelot::run {

/// What the plan says of the season, worked out once.
class SeasonSetup {
 public:
  explicit SeasonSetup(const Plan& plan);

  [[nodiscard]] const WindowRules& rules() const { return rules_; }
  [[nodiscard]] const CropModel& constants() const { return constants_; }
  [[nodiscard]] const LimitThresholds& limits() const { return limits_; }
  [[nodiscard]] const Husbandry& husbandry() const { return husbandry_; }
  [[nodiscard]] const MonthlyNodes& nodes() const { return nodes_; }
  /// Global radiation (MJ m-2 d-1) of a day on a clear-sky share of the plan's sunshine.
  [[nodiscard]] double radiation_mj(const SunDay& sun, DayOfYear day) const;

 private:
  WindowRules rules_;
  CropModel constants_;
  LimitThresholds limits_;
  Husbandry husbandry_;
  MonthlyNodes nodes_;
  std::array<double, kDaysPerYear> sunshine_{};
};

/// The codes of the first property that is not known in each cell of a tile, 0 where all are.
[[nodiscard]] std::vector<std::uint8_t> unknown_properties(const TileLayers& tile,
                                                           std::size_t cells);

/// Mid-month nodes of one property in some cells of a tile, or its days where it has them.
[[nodiscard]] NodeArray nodes_of(const MonthlyTile& tile, std::span<const std::size_t> cells,
                                 const MonthlyNodes& nodes);

/// The nodes of one cell: twelve (a steady property repeats its value), or 365 days.
class CellNodes {
 public:
  CellNodes(const NodeArray& nodes, std::size_t cells, std::size_t cell);
  operator std::span<const float>() const { return {values_.data(), count_}; }

 private:
  std::array<float, kDaysPerYear> values_;  // only count_ are set: most have twelve
  std::size_t count_;
};
[[nodiscard]] CellNodes nodes_at(const NodeArray& nodes, std::size_t cells, std::size_t cell);

/// The windows that a setup gives the cells, put in place of theirs.
[[nodiscard]] std::vector<SeasonWindow> put_windows(KernelForcing& kernel,
                                                    const SeasonSetup& setup);

/// Puts in the sun at the least and the greatest of the latitudes (degrees), and where each cell's
/// lies between.
void put_sun(KernelForcing& kernel, std::span<const float> latitudes, const SeasonSetup& setup);

/// The kernel's input for some cells of a tile, their windows found.
struct TileForcing {
  KernelForcing kernel;
  std::vector<SeasonWindow> windows;
  std::vector<float> season_current;      ///< m/s, mean over the season; over the year without one
  std::vector<float> season_temperature;  ///< degC, likewise
  std::vector<float> season_salinity;
};
/// latitudes: of the cells, degrees.
[[nodiscard]] TileForcing tile_forcing(const TileLayers& layers, std::span<const std::size_t> cells,
                                       std::span<const float> latitudes, const SeasonSetup& setup);

/// The same of a tile that is one cell.
[[nodiscard]] TileForcing cell_forcing(const TileLayers& layers, double latitude_deg,
                                       const SeasonSetup& setup);

/// The same cell's days for the reference, outplant to last haul.
[[nodiscard]] std::vector<DayForcing> day_forcing(const TileForcing& forcing, std::size_t cell,
                                                  double latitude_deg, const SeasonSetup& setup);

}  // namespace tidelot::run
