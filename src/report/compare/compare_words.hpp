// SPDX-License-Identifier: Apache-2.0
// The sentences of compare.html and of the summary that compare prints: labels of the language in
// force with the figures filled in.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/words/words.hpp"
#include "tidelot/report/compare.hpp"

namespace tidelot {

/// The order of one measure.
[[nodiscard]] const MeasureOrder& order_by(const std::vector<MeasureOrder>& orders,
                                           std::string_view key);
/// "complete", or "partial: 1 of 3 plans failed".
[[nodiscard]] std::string state_words(const Comparison& all);

namespace page {

/// Head of a measure's column: "Nitrogen per 100 m".
[[nodiscard]] const std::string& measure_title(std::string_view key);
/// A value of a measure in both systems of units.
[[nodiscard]] Measure measure_words(std::string_view key, double value);
/// "no site", "not known": what stands where there is no value.
[[nodiscard]] const std::string& no_value(const Bay& bay);
/// "11.2 to 23.0 kg"; "" without members. Of a cost without an upper end "11.2 upward".
[[nodiscard]] std::string range_words(std::string_view key, const Measured& value, Units units);
/// "64 %", "more than 99 %": of a share of the members.
[[nodiscard]] std::string chance_words(double share);
/// "1 site", "5 sites".
[[nodiscard]] std::string site_count(std::size_t sites);
/// "Heron Bight, Clear Sound and Tern Sound".
[[nodiscard]] std::string names_of(const Comparison& all);

/// What to make of it all, in sentences of plain text: which bay gives most and how sure that is,
/// what it costs, what would settle the order, what failed.
[[nodiscard]] std::vector<std::string> compare_sentences(const Comparison& all);
/// "farm.line_gap_m: 6 in Heron Bight, 9 in Clear Sound", one a key.
[[nodiscard]] std::vector<std::string> difference_sentences(const Comparison& all);
/// Two crops a year: which bay gives most with both in turn, and what each does.
[[nodiscard]] std::vector<std::string> crop_sentences(const Comparison& all);
/// Keys that are other ones than the plans' for a crop, one line each, with the bays where it is
/// so.
[[nodiscard]] std::vector<std::string> assumed_sentences(const Comparison& all);
/// How the figures were found and what they leave out, one line each.
[[nodiscard]] std::vector<std::string> compare_notes(const Comparison& all);
/// Of one bay's target.
[[nodiscard]] std::string target_words(const TargetFinding& target, double target_kg, Units units);

}  // namespace page
}  // namespace tidelot
