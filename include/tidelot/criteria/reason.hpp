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

/// Codes of maps/reason.tif: what holds a cell back most. Closed rules follow from kFirstRule, the
/// user's own criteria from kFirstOwn.
namespace reason {
inline constexpr std::uint8_t kOutside = 0;  ///< outside the outline; the map's nodata
inline constexpr std::uint8_t kLand = 1;
inline constexpr std::uint8_t kDepthUnknown = 2;
inline constexpr std::uint8_t kTemperatureUnknown = 3;
inline constexpr std::uint8_t kSalinityUnknown = 4;
inline constexpr std::uint8_t kLightUnknown = 5;
inline constexpr std::uint8_t kNitrogenUnknown = 6;
inline constexpr std::uint8_t kCurrentUnknown = 7;
inline constexpr std::uint8_t kOwnUnknown = 8;
inline constexpr std::uint8_t kAccessUnknown = 9;
inline constexpr std::uint8_t kNothing = 10;  ///< every criterion is at its best
inline constexpr std::uint8_t kAground = 11;  ///< gear would ground at the lowest tides
inline constexpr std::uint8_t kTooCold = 12;
inline constexpr std::uint8_t kTooHot = 13;
inline constexpr std::uint8_t kOutsideGear = 14;
inline constexpr std::uint8_t kCropLost = 15;
/// Beyond what the gear bears ([farm] max_depth_m, max_wave_m, max_current_m_s).
inline constexpr std::uint8_t kBeyondDepth = 16;
inline constexpr std::uint8_t kBeyondWaves = 17;
inline constexpr std::uint8_t kBeyondCurrent = 18;
inline constexpr std::uint8_t kSlopeUnknown = 19;
/// What holds growth back most, index = Limit. 20 and 21 are kept free: they meant temperature and
/// salinity without their side.
inline constexpr std::array<std::uint8_t, kLimits - 1> kGrowth{25, 26, 27, 28, 22, 23, 24};
inline constexpr std::uint8_t kTooShallow = 30;  ///< the depth curve, on its rising side
inline constexpr std::uint8_t kTooDeep = 31;
inline constexpr std::uint8_t kCurrentWeak = 32;
inline constexpr std::uint8_t kCurrentStrong = 33;
inline constexpr std::uint8_t kFarFromLanding = 34;
inline constexpr std::uint8_t kWavesHigh = 35;
inline constexpr std::uint8_t kSteep = 36;
inline constexpr std::uint8_t kFirstOwn = 40;
inline constexpr std::uint8_t kFirstRule = 64;
inline constexpr std::uint8_t kFirstRuleUnknown = 96;  ///< whether the rule holds is not known
}  // namespace reason

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
