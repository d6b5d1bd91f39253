// SPDX-License-Identifier: Apache-2.0
// Cells of the tables that a run leaves, and what several columns of sites hold as text.
#pragma once

#include <string>

#include "tidelot/core/calendar.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::cells {

/// A text cell: RFC 4180 quotes; an apostrophe before what a spreadsheet would take for a formula
/// (OWASP, CSV injection), also behind blanks, which some take off.
[[nodiscard]] std::string text(const std::string& raw);
/// An unknown number is an empty cell.
[[nodiscard]] std::string number(double value, int decimals);
/// "05-14"; "" for none.
[[nodiscard]] std::string day(DayOfYear day);

// Lists in one cell, "a;b;c;d" or "name 123.4 m 045.6; ...".
[[nodiscard]] std::string positions(const std::array<LonLat, 4>& corners);  ///< lon lat
[[nodiscard]] std::string utm(const Printed& printed);                      ///< easting northing
[[nodiscard]] std::string side_lengths(const Printed& printed);             ///< m
[[nodiscard]] std::string side_bearings(const Printed& printed);            ///< degrees, true
[[nodiscard]] std::string marks(const Site& site, const Plan& plan);
[[nodiscard]] std::string rules(const Site& site, const Plan& plan);
/// "06-28 0.512;07-12 0.731": day and t of fresh weight, of the whole site.
[[nodiscard]] std::string calendar(const Site& site);
[[nodiscard]] std::string joined(const std::vector<std::string>& phrases);

}  // namespace tidelot::cells
