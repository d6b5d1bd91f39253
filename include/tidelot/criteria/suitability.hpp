// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>

#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// Weighted geometric mean of scores in 0..1: exp(sum w ln s / sum w). A score of 0 with a weight
/// above 0 gives 0; a weight of 0 leaves the score out; NaN anywhere with a weight above 0 gives
/// NaN (unknown). Forms: U.S. Fish & Wildlife Service 1981, Standards for the Development of
/// Habitat Suitability Index Models, ESM 103 (from memory).
[[nodiscard]] double weighted_geometric_mean(std::span<const double> scores,
                                             std::span<const double> weights);

/// The lowest of the scores with a weight above 0 (1 when there is none); NaN where one is not
/// known, like the mean. The limiting-factor form of ESM 103.
[[nodiscard]] double lowest_score(std::span<const double> scores, std::span<const double> weights);

/// The criterion that costs the most: the largest weight * -ln(score), the first on a tie; -1 when
/// every score is 1 (within 1e-9).
[[nodiscard]] int most_limiting(std::span<const double> scores, std::span<const double> weights);

/// Water left under the gear at its lowest, m: depth at low water + gear_sinks_to_m - line depth -
/// sag - hang. NaN in, NaN out.
[[nodiscard]] double clearance_m(double depth_low_water_m, double lowest_tide_m,
                                 const FarmPlan& farm);

/// May gear hang here? clearance_m >= farm.clearance_m, to within 1e-6 m (float maps).
[[nodiscard]] bool gear_clears(double depth_low_water_m, double lowest_tide_m,
                               const FarmPlan& farm);

/// Bits of maps/closed.tif that the gear's limits set: too shallow, too deep, waves, current. What
/// is not known (NaN) closes nothing.
[[nodiscard]] std::uint32_t gear_closes(double depth_low_water_m, double wave_50y_m,
                                        double season_current_m_s, double lowest_tide_m,
                                        const FarmPlan& farm);

}  // namespace tidelot
