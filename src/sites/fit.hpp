// SPDX-License-Identifier: Apache-2.0
// What lies under a box anywhere on the grid.
#pragma once

#include <cstdint>

#include "sites/coverage.hpp"
#include "sites/field.hpp"
#include "sites/site_box.hpp"

namespace tidelot {

/// Areas in cells, each cell counted by the share of it that the box covers.
struct Fit {
  std::int64_t score = 0;   ///< of whole_score, each cell's by its share, rounded at the end
  double barred = 0.0;      ///< no site may lie there; what lies outside the grid, too
  double unknown = 0.0;     ///< a water property, depth or a rule is not known
  double apart_only = 0.0;  ///< depth or a rule is not known
};

/// The box with its edges taken off, so that contact is none, in the grid's columns and rows.
[[nodiscard]] Outline inside(const SiteBox& box, const Grid& grid);

/// Exact but for rounding. Contact of 1e-6 m counts as none.
[[nodiscard]] Fit fit_of(const SiteBox& box, const Grid& grid, const GroundField& field);

}  // namespace tidelot
