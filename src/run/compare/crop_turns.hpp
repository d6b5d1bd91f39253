// SPDX-License-Identifier: Apache-2.0
// A second crop on the lines of the first.
#pragma once

#include <filesystem>

#include "run/compare/finished.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/report/bay.hpp"
#include "tidelot/run.hpp"

namespace tidelot::run {

/// Two crops in turn on the first one's ranked sites: a farm has one lease, and its lines lie where
/// the first crop's run put them. The days on which the lines change hands are found at the centre
/// of the first site, by the nitrogen that one line carries off there (best_turns), and hold for
/// all sites and in every member. Both crops are then computed anew over the sites' cells within
/// their days, with draw-down, neighbours and members, as scout does. They cannot follow each other
/// where the first has no site, one has no season there, a rule or a limit of the gear closes a
/// site to the second, or no turn gives more than one crop alone. Throws as scout.
[[nodiscard]] CropsInTurn crops_in_turn(const Plan& first, const Plan& second, const Bay& lease,
                                        const RunOptions& options);

/// The same, taken from `folder` where it was found there from the same two runs; else computed and
/// kept there.
[[nodiscard]] CropsInTurn finished_turns(const Plan& first, const Plan& second,
                                         const FinishedRun& of_first, const FinishedRun& of_second,
                                         const std::filesystem::path& folder,
                                         const RunOptions& options);

}  // namespace tidelot::run
