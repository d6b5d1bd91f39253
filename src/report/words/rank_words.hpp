// SPDX-License-Identifier: Apache-2.0
// What the order of the sites goes by, so that a reader can follow it.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "tidelot/sites/sites.hpp"

namespace tidelot::page {

/// Ranks in a row, of two or more sites: "1, 2 and 3".
[[nodiscard]] std::string ranks_in_row(std::span<const Site> ranked, std::size_t first,
                                       std::size_t last);

/// The scores of the ranked sites in per cent of the first one's, with as few decimals as tell
/// those apart that differ (one to six): "100.0". The first one's is above 0.
[[nodiscard]] std::vector<std::string> scores_in_percent(std::span<const Site> ranked);

/// What the order goes by, each site's score, and how equal ones are ordered, in sentences; "" of
/// no site, or of sites that are worth nothing.
[[nodiscard]] std::string rank_sentence(std::span<const Site> ranked);

/// Sites in a row whose scores differ by less than 1 %, a line each; where there are members these
/// say more (tie_notes), and this is empty.
[[nodiscard]] std::vector<std::string> close_notes(std::span<const Site> ranked);

}  // namespace tidelot::page
