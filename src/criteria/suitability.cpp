// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/suitability.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "tidelot/criteria/closed_mask.hpp"

namespace tidelot {
namespace {

constexpr double kBest = 1e-9;  // a score this near 1 costs nothing
constexpr double kFloatDepth = 1e-6;

}  // namespace

double weighted_geometric_mean(std::span<const double> scores, std::span<const double> weights) {
  double logs = 0.0;
  double total = 0.0;
  bool zero = false;
  for (std::size_t i = 0; i < scores.size(); ++i) {
    if (weights[i] <= 0.0) {
      continue;
    }
    if (std::isnan(scores[i])) {
      return std::numeric_limits<double>::quiet_NaN();
    }
    zero = zero || scores[i] <= 0.0;
    logs += zero || scores[i] == 1.0 ? 0.0 : weights[i] * std::log(scores[i]);
    total += weights[i];
  }
  return zero ? 0.0 : std::exp(logs / total);  // no weight at all: 0/0, not known
}

double lowest_score(std::span<const double> scores, std::span<const double> weights) {
  double lowest = 1.0;
  for (std::size_t i = 0; i < scores.size(); ++i) {
    if (weights[i] > 0.0) {
      lowest = std::isnan(scores[i]) || std::isnan(lowest)
                   ? std::numeric_limits<double>::quiet_NaN()
                   : std::min(lowest, scores[i]);
    }
  }
  return lowest;
}

int most_limiting(std::span<const double> scores, std::span<const double> weights) {
  int worst = -1;
  double worst_cost = 0.0;
  for (std::size_t i = 0; i < scores.size(); ++i) {
    if (weights[i] <= 0.0 || !(scores[i] < 1.0 - kBest)) {
      continue;
    }
    const double cost = -weights[i] * std::log(scores[i]);
    if (cost > worst_cost) {
      worst = static_cast<int>(i);
      worst_cost = cost;
    }
  }
  return worst;
}

double clearance_m(double depth_low_water_m, double lowest_tide_m, const FarmPlan& farm) {
  return depth_low_water_m + gear_sinks_to_m(farm, lowest_tide_m) - farm.line_depth_m - farm.sag_m -
         farm.hang_m;
}

bool gear_clears(double depth_low_water_m, double lowest_tide_m, const FarmPlan& farm) {
  return clearance_m(depth_low_water_m, lowest_tide_m, farm) >= farm.clearance_m - kFloatDepth;
}

std::uint32_t gear_closes(double depth_low_water_m, double wave_50y_m, double season_current_m_s,
                          double lowest_tide_m, const FarmPlan& farm) {
  const auto bit = [](int number, bool set) { return set ? 1U << number : 0U; };
  const auto beyond = [](double value, const std::optional<double>& limit) {
    return limit && value > *limit;
  };
  const bool grounds =
      !std::isnan(depth_low_water_m) && !gear_clears(depth_low_water_m, lowest_tide_m, farm);
  return bit(closed_bit::kTooShallow, grounds) |
         bit(closed_bit::kTooDeep, beyond(depth_low_water_m, farm.max_depth_m)) |
         bit(closed_bit::kWaves, beyond(wave_50y_m, farm.max_wave_m)) |
         bit(closed_bit::kCurrent, beyond(season_current_m_s, farm.max_current_m_s));
}

}  // namespace tidelot
