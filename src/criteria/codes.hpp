// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>

#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// What a criterion measures.
enum class CriterionKind : std::uint8_t { growth, depth, current, waves, access, slope, own };

/// Criteria of the user's own that reason.tif has codes for, and all that a plan may name.
inline constexpr std::size_t kMaxOwn = reason::kFirstRule - reason::kFirstOwn;
inline constexpr std::size_t kMostCriteria = static_cast<std::size_t>(CriterionKind::own) + kMaxOwn;

[[nodiscard]] inline CriterionKind kind_of(const CriterionPlan& criterion) {
  return criterion.name == "growth"                     ? CriterionKind::growth
         : criterion.name == "depth"                    ? CriterionKind::depth
         : criterion.name == "current"                  ? CriterionKind::current
         : criterion.name == "waves"                    ? CriterionKind::waves
         : criterion.name == "access"                   ? CriterionKind::access
         : criterion.name == "slope" && !criterion.file ? CriterionKind::slope
                                                        : CriterionKind::own;
}

/// Throws Error(plan) when there are more rules or criteria than the maps have codes for.
void require_codes(const Plan& plan);

}  // namespace tidelot
