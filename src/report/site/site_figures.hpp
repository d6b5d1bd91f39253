// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>

#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

/// What the tables and files say about a site, derived in one place.
namespace tidelot::page {

/// "closed", "caution", "closed, May to Sep", "food only: does not apply".
[[nodiscard]] std::string effect_words(const ClosedPlan& rule);

/// The nearest rule that closes water, or null; cautions do not close.
[[nodiscard]] const RuleDistance* nearest_closed(const Site& site, const Plan& plan);
/// Name of a rule of the plan.
[[nodiscard]] const std::string& rule_name(const RuleDistance& rule, const Plan& plan);
/// Is the site ranked? Else it is listed apart: a place found, named A01 on, or an own box that
/// something forbids.
[[nodiscard]] inline bool is_ranked(const Site& site) {
  return site.own > 0 ? site.wrong.empty() : !site.name.starts_with('A');
}
/// The number that stands for a site: its rank, "A1", or of an own box "OWN1".
[[nodiscard]] std::string short_name(const Site& site);
/// What a site is called in text: "Site 1", "Site A1", "Your own box OWN1".
[[nodiscard]] std::string called(const Site& site);
/// Where in an own box its gear lies, in a sentence.
[[nodiscard]] std::string own_layout_sentence(const Site& site, ReportPlan::Units units);
/// Why a site is listed apart, in a phrase; of an own box all that forbids it; "" when it is
/// ranked.
[[nodiscard]] std::string apart_note(const Site& site);
/// "counted", or why the crop's own draw-down of nitrogen is not in the site's figures.
[[nodiscard]] std::string draw_down_state(const Site& site);
/// What the draw-down costs, in a sentence with both figures and the share; why it is not counted.
[[nodiscard]] std::string draw_down_sentence(const Site& site, ReportPlan::Units units);
/// Is it in the figures of every site, of none, or of some? For the foot of a table.
[[nodiscard]] std::string draw_down_of_all(std::span<const Site> sites);
/// The day of the last field reading, "2026-06-14", or "not field-checked".
[[nodiscard]] std::string field_checked(const Site& site);
/// "Jun; Jul": the months with field readings; "" without any.
[[nodiscard]] std::string field_months(const Site& site);
/// Both, with the number of visits, in a sentence.
[[nodiscard]] std::string field_sentence(const Site& site);
/// "S02; S05": the sites whose water comes to it; "" without any, or where that is not computed.
[[nodiscard]] std::string neighbour_names(const Site& site);
/// What they take while all ranked sites are farmed at once, in a sentence; "" where that is not
/// computed.
[[nodiscard]] std::string neighbour_sentence(const Site& site, ReportPlan::Units units);
/// Sums over the ranked sites, each alone and all at once. Those without draw_down count as alone.
struct SumOfSites {
  double yield_t = 0.0, nitrogen_kg = 0.0;
  double yield_together_t = 0.0, nitrogen_together_kg = 0.0;
};
[[nodiscard]] SumOfSites sum_of(std::span<const Site> ranked);
/// The same in a sentence, for the foot of a table; "" of fewer than two sites.
[[nodiscard]] std::string together_sentence(std::span<const Site> ranked, ReportPlan::Units units);
/// "S01", "OWN1": plain ASCII, unique among sites; what GPX waypoints and file names build on.
[[nodiscard]] std::string plain_name(const Site& site);

/// Names of what lies at a site, from its plain name: "S01L01", its anchors "S01L01A" and
/// "S01L01B", its markers "S01M01". Eight plain letters, unless there are very many.
[[nodiscard]] std::string line_name(const std::string& site, std::size_t line);
[[nodiscard]] std::string anchor_name(const std::string& site, std::size_t line, std::size_t end);
[[nodiscard]] std::string marker_name(const std::string& site, std::size_t marker);

}  // namespace tidelot::page
