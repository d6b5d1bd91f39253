// SPDX-License-Identifier: Apache-2.0
// What the members say, in words and tables.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "report/words/words.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::page {

/// "0.95 to 1.61 t (1.05 to 1.77 short tons)": P10 to P90, by how a quantity is printed.
[[nodiscard]] std::string range_in_line(const Quantiles& q, Measure (*print)(double), Units units);
/// The two under each other for a cell of a table; "" without a spread.
[[nodiscard]] std::string yield_range_cell(const Site& site, Units units);
[[nodiscard]] std::string nitrogen_range_cell(const Site& site, Units units);

/// "P10 to P90 of 64 members: ..." or that there is no spread.
[[nodiscard]] std::string spread_basis(const Plan& plan);

/// What to measure first at a site: the input that can be measured with the largest share of the
/// spread of nitrogen; "" where none is told from chance.
[[nodiscard]] std::string measure_first(const Site& site);

/// Which sites are not told apart by the members, or without them by their scores; a line each.
[[nodiscard]] std::vector<std::string> tie_notes(std::span<const Site> ranked);
/// What to measure first and how much of the first site's spread it makes, or that nothing stands
/// out: one line, none without members.
[[nodiscard]] std::vector<std::string> measure_note(std::span<const Site> ranked);
/// Both, in plain words, one line each: which sites are not told apart, and what drives the spread
/// of the first.
[[nodiscard]] std::vector<std::string> spread_notes(std::span<const Site> ranked);

/// What the run notes besides them, as it notes it: for translated().
[[nodiscard]] std::vector<std::string> other_notes(const SitesResult& sites);

/// The spread of one site: its quantiles with bars, its chances, what drives it; "" without one.
[[nodiscard]] std::string spread_section(const Site& site, const Plan& plan);

}  // namespace tidelot::page
