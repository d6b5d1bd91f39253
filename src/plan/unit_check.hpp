// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "plan/section.hpp"

namespace tidelot::planfile {

/// The table's unit key, "" where it is left out. Throws Error(plan) where it is no unit of the
/// quantity, listing those that are.
[[nodiscard]] std::string checked_unit(Section& section, Quantity quantity);

/// Throws Error(plan) where a value of the plan, in unit ("": the canonical one), is not to be
/// believed, naming the likely mistake. key holds the value.
void check_plausible(const Section& section, std::string_view key, Quantity quantity,
                     const std::string& unit, double value);

}  // namespace tidelot::planfile
