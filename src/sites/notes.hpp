// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
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

/// How each own box that is ranked ranks, and why others are listed apart, before the other notes.
void add_own_notes(std::span<const Site> own, SitesResult& result);

}  // namespace tidelot
