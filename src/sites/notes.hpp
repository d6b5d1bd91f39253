// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "sites/field.hpp"
#include "sites/select.hpp"

namespace tidelot {

/// In plain words, with numbers: why no site or fewer than asked for were found. Empty when all
/// were.
[[nodiscard]] std::vector<std::string> notes_on(const Plan& plan, const SiteSize& size,
                                                const GroundCount& ground,
                                                const SitesResult& result,
                                                const Refusals& refusals);

}  // namespace tidelot
