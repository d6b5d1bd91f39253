// SPDX-License-Identifier: Apache-2.0
// Estuaries side by side, on equal terms.
#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tidelot/report/compare.hpp"
#include "tidelot/run.hpp"

namespace tidelot {

struct CompareOptions {
  RunOptions run;                   ///< out: the folder of the comparison
  bool allow_different = false;     ///< go on where crop, farm, money or sites differ
  std::optional<double> target_kg;  ///< of nitrogen a year
  std::optional<CropPair> crops;    ///< two crops a year; empty: each plan's own
};
inline constexpr std::size_t kFewestPlans = 2, kMostPlans = 20;

/// What a comparison says at its end.
struct CompareSummary {
  std::filesystem::path out;
  Comparison comparison;
  std::vector<std::string> reused;  ///< names of the bays whose finished output was taken
};

/// Runs every plan as scout does, into options.run.out/bays, or takes the finished output of the
/// same plan, inputs and version that stands there or beside the plan; then writes compare.html,
/// compare.csv, compare.json and run.json. A plan that fails is left out and told in failed.
/// Error(plan) where fewer than 2 or more than 20 plans are given, or where crop, farm, money or
/// the sites looked for differ without allow_different; the fault of the first where all fail. With
/// two crops every plan is run once for each (plan_for_crop), and both in turn on the first one's
/// lines.
[[nodiscard]] CompareSummary compare(std::span<const std::filesystem::path> plans,
                                     const CompareOptions& options);

/// Keys of the measure that are not the same in all plans: those of crop, farm and money, and how
/// many sites of what size and shape are looked for.
[[nodiscard]] std::vector<KeyDifference> measure_differences(std::span<const Plan> plans);

}  // namespace tidelot
