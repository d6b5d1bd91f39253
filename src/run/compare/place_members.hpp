// SPDX-License-Identifier: Apache-2.0
// Where the error of the depth tells at the best site: the way to the landing, the waves.
#pragma once

#include <filesystem>

#include "run/compare/finished.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/report/bay.hpp"
#include "tidelot/run.hpp"

namespace tidelot::run {

/// Adds each member's way from the landing to the best site of a finished run, and the highest
/// waves there: nothing without members, without an error of the depth, or without landing and
/// winds. The error at the site is taken for the whole grid (with [uncertainty] length_m it is
/// another one elsewhere); the wind is the same in every member, as nobody states its error. Taken
/// from `folder` where it was found there for the same run, else computed and kept there: it is
/// worked out once a member over the whole grid, which scout need not wait for. Throws as scout.
void add_place_members(FinishedRun& run, const Plan& plan, const std::filesystem::path& folder,
                       const RunOptions& options);

}  // namespace tidelot::run
