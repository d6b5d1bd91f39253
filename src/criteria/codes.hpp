// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>

#include "tidelot/criteria/criterion_kind.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot {

/// Criteria of the user's own that reason.tif has codes for, and all that a plan may name.
inline constexpr std::size_t kMaxOwn = reason::kFirstRule - reason::kFirstOwn;
inline constexpr std::size_t kMostCriteria = static_cast<std::size_t>(CriterionKind::own) + kMaxOwn;

/// Throws Error(plan) when there are more rules or criteria than the maps have codes for.
void require_codes(const Plan& plan);

}  // namespace tidelot
