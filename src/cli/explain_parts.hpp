// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <string>

#include "tidelot/core/sparkline.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/run.hpp"

namespace tidelot::cli {

/// One place told on a page of text, for a terminal with these glyphs.
[[nodiscard]] std::string explain_text(const Plan& plan, const Explanation& e, Glyphs glyphs);
/// The same as JSON; docs/user/outputs.md names its keys.
[[nodiscard]] std::string explain_json(const Plan& plan, const Explanation& e);

/// "closed here", "caution" or "-": what a rule means for the cell.
[[nodiscard]] std::string effect_of(const ClosedPlan& rule, const RuleDistance& distance,
                                    const Explanation& e);

/// The cautions that bear on one place's figures, by number from 1.
inline constexpr std::array<std::size_t, 4> kPlaceCautions{1, 4, 10, 12};

}  // namespace tidelot::cli
