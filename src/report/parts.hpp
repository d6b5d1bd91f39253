// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "report/words/words.hpp"
#include "tidelot/report/report.hpp"

/// The parts of report.html that are words and tables, in the order of the page.
namespace tidelot::page {

/// A whole page: head with its policy (no request leaves it), style, body, script.
struct Document {
  std::string title;  ///< plain text
  std::string body;
  std::string json;        ///< for the script, "" for none
  bool script = true;      ///< does page.js go along?
  std::string style = {};  ///< of this page alone, after page.css
};
[[nodiscard]] std::string html(const Document& document);

/// Title, waterbody, applicant, date (where the plan gives it), what the paper is not.
[[nodiscard]] std::string title_block(const Plan& plan, std::string_view sheet);
/// The rest of a sheet's title block: for whom, the date (left to be written by hand, so that the
/// same run gives the same bytes), reference system, datum, where the sources stand.
/// positions: the datum of the positions on the sheet.
[[nodiscard]] std::string drawn_for(const ReportData& data, std::string_view positions = "WGS 84");
/// The twelve cautions in short, as markup: in the reader's language, and in English where that
/// differs.
[[nodiscard]] std::vector<std::string> short_cautions_spoken();
/// The same for the foot of a sheet.
[[nodiscard]] std::string cautions_foot();

/// What is shown on paper only.
[[nodiscard]] std::string for_paper(const std::string& content);

/// What was asked and found: the three best places and why, what their nitrogen means, what is not
/// known, what to check by boat.
[[nodiscard]] std::string answer(const ReportData& data);
/// The ranked sites, and those listed apart.
[[nodiscard]] std::string site_tables(const ReportData& data);
/// A sheet for every site.
[[nodiscard]] std::string site_sheets(const ReportData& data);
/// A site's season with one thing changed at a time, and the best of it in a sentence; "" where it
/// was not computed.
[[nodiscard]] std::string site_choices(const Site& site, const Plan& plan);
/// The layout of a site drawn to scale: boundary, longlines, corners.
[[nodiscard]] std::string site_plan(const Site& site, const ReportData& data);
/// Corners and centre in three forms and in UTM; the sides; where landing, shore and marks lie.
[[nodiscard]] std::string site_corners(const Site& site);
[[nodiscard]] std::string site_sides(const Site& site, Units units);
[[nodiscard]] std::string site_directions(const Site& site, const ReportData& data);
/// The area of the printed corners, and how it was found.
[[nodiscard]] std::string area_sentence(const Site& site, Units units);
/// Every harvest with its date and expected weight; "" where the season is not known.
[[nodiscard]] std::string harvest_table(const Site& site, const Plan& plan);
/// Water properties that are one number, or one a month, everywhere: "Current: one number ...".
[[nodiscard]] std::vector<std::string> same_everywhere(const Plan& plan);
/// What the figures of a site rest on that is not known, patched, or the same everywhere.
[[nodiscard]] std::string data_gaps(const Site& site, const Plan& plan);
/// Yield, nitrogen, shares of the load and cost of one site.
[[nodiscard]] std::string site_account(const Site& site, const Plan& plan);
/// What harvests were published to carry off, with the sources, in plain text.
[[nodiscard]] std::string published_removal();
/// The load table of all sites, with what it is a share of and what was published elsewhere.
[[nodiscard]] std::string load_section(const ReportData& data);
/// The season of a site drawn day by day, with what held growth back; "" without one.
[[nodiscard]] std::string season_chart(const Site& site, const Plan& plan);

/// Which rules and depths closed how much water; where the water stands; what holds the rest back.
[[nodiscard]] std::string water_tables(const ReportData& data);
/// How the open water and the best site hang on the plan's distances and limits; "" where it was
/// not asked for.
[[nodiscard]] std::string what_if_table(const ReportData& data);
/// Layers, reference system, datum, coordinate operations.
[[nodiscard]] std::string sources(const ReportData& data);
/// Defaults in force and the crop's constants.
[[nodiscard]] std::string assumptions(const ReportData& data);
[[nodiscard]] std::string warnings(const ReportData& data);
/// A few sentences on the method.
[[nodiscard]] std::string method(const ReportData& data);
/// The twelve in full.
[[nodiscard]] std::string cautions_in_full();

}  // namespace tidelot::page
