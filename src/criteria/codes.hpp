// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// What a criterion measures.
enum class CriterionKind { growth, depth, current, waves, access, slope, own };

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
