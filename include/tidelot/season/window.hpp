// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "tidelot/core/crop.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// Why a cell has no season.
enum class SeasonState : std::uint8_t {
  grows,
  too_cold,      ///< a warm crop: the trailing ten-day mean never reaches the outplant temperature
  too_hot,       ///< it is at or above the crop's upper limit on every day of the season, or a cold
                 ///< crop: it never falls to the outplant temperature
  outside_gear,  ///< the water's season and the gear dates do not meet
};

/// The growing period of one cell. outplant is 1..365; last_haul is counted on, beyond 365 over the
/// new year. Both are days of growth.
struct SeasonWindow {
  SeasonState state = SeasonState::grows;
  int outplant = 0;
  int last_haul = 0;
  [[nodiscard]] int days() const {
    return state == SeasonState::grows ? last_haul - outplant + 1 : 0;
  }
};

/// What decides the window; from the plan and the crop.
struct WindowRules {
  double outplant_temperature = 15.0;   ///< degC, of the trailing ten-day mean
  double last_haul_temperature = 13.0;  ///< degC
  double t_max = 34.05;                 ///< degC; no growth at or above
  std::optional<DayOfYear> outplant;    ///< given in the plan: used as it is
  std::optional<DayOfYear> last_haul;
  std::optional<DayOfYear> gear_in;
  std::optional<DayOfYear> gear_out;
  SeasonRule rule = SeasonRule::warm;
};
[[nodiscard]] WindowRules window_rules(const Plan& plan);

/// The window of a cell from its twelve temperature nodes (degC), or its 365 days. A warm crop:
/// from the warmest day of the trailing ten-day mean of the daily values back to the first day at
/// or above the outplant temperature, and on to the last at or above the last-haul temperature. A
/// cold crop: the same with coldest and at or below. Then clipped by the gear dates. Given dates
/// replace the found ones, whatever the water, and are clipped too; where only one is given the
/// other is found. The year is a circle: a season may run over the new year, and water that is warm
/// (or cold) throughout gives the year from gear_in (or 1 January) on. Where the gear dates leave
/// two pieces of a season, the longer one is it.
[[nodiscard]] SeasonWindow season_window(std::span<const float> temperature_nodes,
                                         const WindowRules& rules);

/// The window that the water alone would give, before the plan's dates: for warnings.
[[nodiscard]] SeasonWindow water_window(std::span<const float> temperature_nodes,
                                        const WindowRules& rules);

/// The longest stretch that a season shares with the days from one date to another, every year; the
/// first of equals. No days (outside_gear) where they share none.
[[nodiscard]] SeasonWindow part_within(const SeasonWindow& season, DayOfYear from, DayOfYear to);

}  // namespace tidelot
