// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <limits>

#include "criteria/codes.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/criteria/suitability.hpp"

namespace tidelot {
namespace {

constexpr float kNotKnown = std::numeric_limits<float>::quiet_NaN();

/// Place of a criterion among the user's own.
std::size_t own_index(const std::vector<CriterionPlan>& criteria, std::size_t criterion) {
  std::size_t own = 0;
  for (std::size_t i = 0; i < criterion; ++i) {
    own += kind_of(criteria[i]) == CriterionKind::own ? 1 : 0;
  }
  return own;
}

/// Is x on the rising side, left of where the curve is first at its highest?
bool on_rising_side(const Curve& curve, double x) {
  const auto& points = curve.points();
  const auto top =
      std::max_element(points.begin(), points.end(),
                       [](const Curve::Point& a, const Curve::Point& b) { return a.y < b.y; });
  return x < top->x;
}

std::uint8_t growth_reason(const CellEvidence& cell) {
  if (cell.yield_kg_per_m < 0.0) {
    return reason::kCropLost;
  }
  const auto lowest = std::min_element(cell.mean_factor.begin(), cell.mean_factor.end());
  return reason::kGrowth[static_cast<std::size_t>(
      limit_of(static_cast<Factor>(lowest - cell.mean_factor.begin()), cell.warm, cell.salty))];
}

std::uint8_t season_reason(SeasonState state) {
  switch (state) {
    case SeasonState::too_cold:
      return reason::kTooCold;
    case SeasonState::too_hot:
      return reason::kTooHot;
    case SeasonState::outside_gear:
      return reason::kOutsideGear;
    case SeasonState::grows:
      break;
  }
  return reason::kNothing;
}

std::uint8_t unknown_reason(CriterionKind kind) {
  switch (kind) {
    case CriterionKind::depth:
      return reason::kDepthUnknown;
    case CriterionKind::current:
      return reason::kCurrentUnknown;
    case CriterionKind::access:
      return reason::kAccessUnknown;
    case CriterionKind::slope:
      return reason::kSlopeUnknown;
    case CriterionKind::waves:
    case CriterionKind::growth:  // its water properties name themselves in CellEvidence::unknown
    case CriterionKind::own:
      break;
  }
  return reason::kOwnUnknown;
}

/// What holds back a cell whose criterion number `worst` costs the most.
std::uint8_t limiting_reason(const CellEvidence& cell, const std::vector<CriterionPlan>& criteria,
                             std::size_t worst) {
  const Curve& curve = criteria[worst].curve;
  switch (kind_of(criteria[worst])) {
    case CriterionKind::growth:
      return growth_reason(cell);
    case CriterionKind::depth:
      return on_rising_side(curve, cell.depth_low_water) ? reason::kTooShallow : reason::kTooDeep;
    case CriterionKind::current:
      return on_rising_side(curve, cell.season_current) ? reason::kCurrentWeak
                                                        : reason::kCurrentStrong;
    case CriterionKind::waves:
      return reason::kWavesHigh;
    case CriterionKind::access:
      return reason::kFarFromLanding;
    case CriterionKind::slope:
      return reason::kSteep;
    case CriterionKind::own:
      break;
  }
  return static_cast<std::uint8_t>(reason::kFirstOwn + own_index(criteria, worst));
}

/// The code of the first rule of a set, counted from a first code.
std::uint8_t first_rule_reason(std::uint8_t first, std::uint32_t rules) {
  return static_cast<std::uint8_t>(first + std::countr_zero(rules) - closed_bit::kFirstRule);
}

/// The first criterion with a weight that has this score; -1 where all are at their best.
int first_at(std::span<const double> scores, std::span<const double> weights, double score) {
  for (std::size_t i = 0; i < scores.size(); ++i) {
    if (score < 1.0 && weights[i] > 0.0 && scores[i] == score) {
      return static_cast<int>(i);
    }
  }
  return -1;
}

/// The reason of the lowest bit.
std::uint8_t gear_reason(std::uint32_t bits) {
  constexpr std::array<std::uint8_t, 4> kReasons{reason::kAground, reason::kBeyondDepth,
                                                 reason::kBeyondWaves, reason::kBeyondCurrent};
  return kReasons.at(static_cast<std::size_t>(std::countr_zero(bits)));
}

}  // namespace

std::optional<CellScore> score_if_closed(const CellEvidence& cell, const FarmPlan& farm,
                                         double lowest_tide_m) {
  if (!cell.inside || cell.depth_low_water <= 0.0) {
    return CellScore{kNotKnown, kClosedNotWater, cell.inside ? reason::kLand : reason::kOutside,
                     kNotKnown};
  }
  const std::uint32_t gear =
      gear_closes(cell.depth_low_water, cell.wave_50y_m, cell.season_current, lowest_tide_m, farm);
  if (cell.rules != 0) {
    return CellScore{0.0F, cell.rules | gear, first_rule_reason(reason::kFirstRule, cell.rules)};
  }
  if (std::isnan(cell.depth_low_water)) {
    return CellScore{kNotKnown, kClosedUnknown, reason::kDepthUnknown, kNotKnown};
  }
  if (gear != 0) {
    return CellScore{0.0F, gear, gear_reason(gear)};
  }
  if (cell.rules_unknown != 0) {
    return CellScore{kNotKnown, kClosedUnknown,
                     first_rule_reason(reason::kFirstRuleUnknown, cell.rules_unknown), kNotKnown};
  }
  return std::nullopt;
}

Scorer::Scorer(const Plan& plan)
    : criteria_(plan.criteria),
      uses_growth_(weighs(plan, CriterionKind::growth)),
      combine_(plan.combine),
      farm_(plan.farm),
      lowest_tide_m_(plan.depth.lowest_tide_m) {
  require_codes(plan);
  for (const CriterionPlan& criterion : criteria_) {
    weights_.push_back(criterion.weight);
    kinds_.push_back(kind_of(criterion));
  }
}

std::vector<double> Scorer::scores(const CellEvidence& cell) const {
  std::vector<double> result(criteria_.size());
  put_scores(cell, result);
  return result;
}

void Scorer::put_scores(const CellEvidence& cell, std::span<double> result) const {
  std::size_t own = 0;
  for (std::size_t i = 0; i < criteria_.size(); ++i) {
    const Curve& curve = criteria_[i].curve;
    switch (kinds_[i]) {
      case CriterionKind::growth: {
        const double yield = cell.season == SeasonState::grows ? cell.yield_kg_per_m : 0.0;
        result[i] = curve(yield < 0.0 ? 0.0 : yield);
        break;
      }
      case CriterionKind::depth:
        result[i] = curve(cell.depth_low_water);
        break;
      case CriterionKind::current:
        result[i] = curve(cell.season_current);
        break;
      case CriterionKind::waves:
        result[i] = curve(cell.wave_50y_m);
        break;
      case CriterionKind::access:
        result[i] = curve(cell.landing_km);
        break;
      case CriterionKind::slope:
        result[i] = curve(cell.slope_deg);
        break;
      case CriterionKind::own:
        result[i] = curve(own < cell.own.size() ? cell.own[own] : kNotKnown);
        ++own;
        break;
    }
  }
}

CellScore Scorer::operator()(const CellEvidence& cell) const {
  const std::optional<CellScore> closed = score_if_closed(cell, farm_, lowest_tide_m_);
  return closed ? *closed : if_open(cell);
}

CellScore Scorer::if_open(const CellEvidence& cell) const {
  if (cell.unknown != 0) {
    return {kNotKnown, 0, cell.unknown, kNotKnown};
  }
  if (cell.season != SeasonState::grows && uses_growth_) {
    return {0.0F, 0, season_reason(cell.season)};
  }
  std::array<double, kMostCriteria> room;  // only the first are set
  const std::span<double> all = std::span(room).first(criteria_.size());
  put_scores(cell, all);
  const double mean = weighted_geometric_mean(all, weights_);
  if (std::isnan(mean)) {
    const auto first = std::find_if(all.begin(), all.end(), [](double s) { return std::isnan(s); });
    const bool found = first != all.end();
    const auto kind = found ? kind_of(criteria_[static_cast<std::size_t>(first - all.begin())])
                            : CriterionKind::own;
    return {kNotKnown, 0, unknown_reason(kind), kNotKnown};
  }
  const double lowest = lowest_score(all, weights_);
  const bool lowest_decides = combine_ == Combine::minimum;
  const int worst = lowest_decides ? first_at(all, weights_, lowest) : most_limiting(all, weights_);
  const std::uint8_t why = worst < 0
                               ? reason::kNothing
                               : limiting_reason(cell, criteria_, static_cast<std::size_t>(worst));
  return {static_cast<float>(lowest_decides ? lowest : mean), 0, why, static_cast<float>(lowest)};
}

}  // namespace tidelot
