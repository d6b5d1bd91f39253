// SPDX-License-Identifier: Apache-2.0
// Two crops in turn on the same lines.
#pragma once

#include <functional>

#include "tidelot/season/window.hpp"

namespace tidelot {

/// When the lines change hands: each crop may be in the water from its own day until the day before
/// the other's.
struct Turns {
  DayOfYear first_from = 1, second_from = 1;
  SeasonWindow first, second;  ///< what the crops' seasons come to; no days: no turn leaves both
  bool cut = false;            ///< the seasons overlap, and one or both of them are cut for it
};

/// What a crop gives in a season, kg or any other unit; both crops in the same.
using SeasonYield = std::function<double(const SeasonWindow&)>;

/// The turns of two crops whose seasons are these; both have days. Where they do not overlap, both
/// stay as they come and the lines change hands in the middle of each gap. Where they overlap, the
/// days on which they change are those that give most together, every whole day looked at (where
/// more than 200 days overlap every seventh, then every day around the best of them); of equals the
/// one that gives the first crop most days.
[[nodiscard]] Turns best_turns(const SeasonWindow& first, const SeasonWindow& second,
                               const SeasonYield& of_first, const SeasonYield& of_second);

}  // namespace tidelot
