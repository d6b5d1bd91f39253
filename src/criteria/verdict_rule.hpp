// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "growth/forcing_block.hpp"
#include "tidelot/criteria/member_verdict.hpp"

namespace tidelot {

/// A criterion that differs from member to member.
struct VaryingCriterion {
  CurveLines curve;
  float weight = 1.0F;
};

/// The plan's criteria as MemberVerdict needs them. Scores are counted by their logarithm to
/// base 2.
struct MemberVerdict::Rule {
  bool lowest_decides = false;
  std::vector<VaryingCriterion> growth, depth, current;
  /// The others' places among the plan's criteria, and their weights.
  std::vector<std::size_t> fixed;
  std::vector<double> fixed_weight;
  double weight = 0.0;  ///< sum over all; 1 where the lowest decides
  double log_least = 0.0;
  float each_needs = 0.0F;  ///< log_least, of each criterion where the lowest decides
  // Limits of depth (m) and current (m/s):
  float least_depth_m = 0.0F, most_depth_m = 0.0F, most_current_m_s = 0.0F;
  std::optional<double> most_wave_m;
};

/// The same for one cell.
struct CellRule {
  const MemberVerdict::Rule& rule;
  float depth_m = 0.0F;
  float current_m_s = 0.0F;
  float start = 0.0F;         ///< the fixed criteria's part, less what is needed
  bool depth_differs = true;  ///< does the members' depth make a difference to the score?
};

}  // namespace tidelot
