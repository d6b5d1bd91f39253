// SPDX-License-Identifier: Apache-2.0
// What a town meeting asks of a site.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "tidelot/report/report.hpp"

namespace tidelot::page {

/// Least height of a marker above water in the published rules (3 ft), m; printed as one not
/// verified for the place.
inline constexpr double kMarkerHeight_m = 0.9;

/// Question (plain text) and answer (markup), in the order in which they are asked: how far from
/// what, how many buoys, who to call, when it is gone, what if it breaks loose, what one may still
/// do, bottom, eelgrass, farms. What the run does not know is said, with who must say it and room
/// to write.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> meeting_questions(
    const Site& site, const ReportData& data);

}  // namespace tidelot::page
