// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tidelot/growth/limits.hpp"
#include "tidelot/growth/tile_kernel.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/season/window.hpp"

namespace tidelot {

/// Text of every code, index = code, "" where a code is not used; in plain words, as printed in the
/// report and kept in reason.tif ("closed: eelgrass beds", "growth held back by: light").
[[nodiscard]] std::vector<std::string> reason_names(const Plan& plan);

/// The texts of maps/closed.tif's bits, index = bit.
[[nodiscard]] std::vector<std::string> closed_bit_names(const Plan& plan);

/// What the run knows of one cell before it is scored. NaN is unknown.
struct CellEvidence {
  double depth_low_water = 0.0;  ///< m
  bool inside = true;            ///< inside the outline
  std::uint32_t rules = 0;       ///< closing bits of the plan's rules
  std::uint32_t rules_unknown =
      0;  ///< bits of the rules of which it is not known whether they hold
  SeasonState season = SeasonState::grows;
  std::uint8_t unknown = 0;  ///< code of the first unknown property, 0 when all are known
  double yield_kg_per_m = 0.0;
  std::array<float, kFactors> mean_factor{};
  /// Sides of the season's mean: above the best temperature, above the best salinity.
  bool warm = false, salty = false;
  double season_current = 0.0;  ///< m/s, mean over the season
  double landing_km = 0.0;      ///< over water; NaN: no way there
  double wave_50y_m = 0.0;      ///< significant height once in fifty years; NaN: not known
  double slope_deg = std::numeric_limits<double>::quiet_NaN();  ///< of the bed; NaN: not known
  std::vector<double> own;                                      ///< the user's own criteria
};

/// One cell's verdict.
struct CellScore {
  float suitability = 0.0F;  ///< NaN: unknown, land or outside
  std::uint32_t closed = 0;  ///< as in maps/closed.tif
  std::uint8_t reason = 0;
  float lowest = 0.0F;  ///< the lowest criterion's score; suitability where it is no score
};

/// What closes a cell, or leaves it unknown whether it is closed, before any criterion is looked
/// at: land, rules, gear. None: the cell is open.
[[nodiscard]] std::optional<CellScore> score_if_closed(const CellEvidence& cell,
                                                       const FarmPlan& farm, double lowest_tide_m);

enum class CriterionKind : std::uint8_t;

/// Scores cells by the plan's criteria.
class Scorer {
 public:
  explicit Scorer(const Plan& plan);
  [[nodiscard]] CellScore operator()(const CellEvidence& cell) const;
  /// The score that the cell has, or would have if nothing closed it.
  [[nodiscard]] CellScore if_open(const CellEvidence& cell) const;
  /// Each criterion's score, in plan order, for explain; NaN unknown.
  [[nodiscard]] std::vector<double> scores(const CellEvidence& cell) const;

 private:
  void put_scores(const CellEvidence& cell, std::span<double> result) const;

  std::vector<CriterionPlan> criteria_;
  std::vector<CriterionKind> kinds_;
  std::vector<double> weights_;
  bool uses_growth_ = false;
  Combine combine_ = Combine::geometric;
  FarmPlan farm_;
  double lowest_tide_m_;
};

}  // namespace tidelot
