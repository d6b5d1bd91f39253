// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>

#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// What a criterion measures.
enum class CriterionKind : std::uint8_t { growth, depth, current, waves, access, slope, own };

[[nodiscard]] CriterionKind kind_of(const CriterionPlan& criterion);

/// Does the plan score by a criterion of this kind, be its weight 0, which is told but does not
/// count?
[[nodiscard]] bool scores(const Plan& plan, CriterionKind kind);

/// Does one of this kind count?
[[nodiscard]] bool weighs(const Plan& plan, CriterionKind kind);

}  // namespace tidelot
