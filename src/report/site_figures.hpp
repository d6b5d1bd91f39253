// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>

#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

/// What the tables and files say about a site, derived in one place.
namespace tidelot::page {

/// The nearest rule that closes water, or null; cautions do not close.
[[nodiscard]] const RuleDistance* nearest_closed(const Site& site, const Plan& plan);
/// Name of a rule of the plan.
[[nodiscard]] const std::string& rule_name(const RuleDistance& rule, const Plan& plan);
/// Is the site ranked? Those listed apart are named A01 on, and numbered among themselves.
[[nodiscard]] inline bool is_ranked(const Site& site) { return !site.name.starts_with('A'); }
/// Why a site is listed apart, in a phrase; "" when it is ranked.
[[nodiscard]] std::string apart_note(const Site& site);
/// "S01": plain ASCII, unique in a list of sites; what GPX waypoints and file names build on.
[[nodiscard]] std::string plain_name(const Site& site, std::size_t index);

}  // namespace tidelot::page
