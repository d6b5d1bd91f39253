// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/criterion_kind.hpp"

#include <algorithm>

namespace tidelot {

CriterionKind kind_of(const CriterionPlan& criterion) {
  return criterion.name == "growth"                     ? CriterionKind::growth
         : criterion.name == "depth"                    ? CriterionKind::depth
         : criterion.name == "current"                  ? CriterionKind::current
         : criterion.name == "waves"                    ? CriterionKind::waves
         : criterion.name == "access"                   ? CriterionKind::access
         : criterion.name == "slope" && !criterion.file ? CriterionKind::slope
                                                        : CriterionKind::own;
}

bool scores(const Plan& plan, CriterionKind kind) {
  return std::any_of(plan.criteria.begin(), plan.criteria.end(),
                     [kind](const CriterionPlan& each) { return kind_of(each) == kind; });
}

bool weighs(const Plan& plan, CriterionKind kind) {
  return std::any_of(plan.criteria.begin(), plan.criteria.end(), [kind](const CriterionPlan& each) {
    return kind_of(each) == kind && each.weight > 0.0;
  });
}

}  // namespace tidelot
