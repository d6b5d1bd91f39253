// SPDX-License-Identifier: Apache-2.0
// Which sites were visited with instruments.
#pragma once

#include <span>

#include "tidelot/layers/field_checks.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// A reading counts for a site in its rectangle or at most this far from its edge, true metres
/// (judgement: a boat swings on its anchor, and corners are read next to their buoy).
inline constexpr double kFieldReach_m = 50.0;

/// Marks ranked sites and those listed apart. scale: grid length over ground length.
void mark_field_checked(SitesResult& sites, std::span<const FieldVisit> visits, double scale);

}  // namespace tidelot::run
