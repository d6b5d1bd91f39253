// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "report/sheets/paper.hpp"
#include "report/words/html.hpp"
#include "tidelot/report/report.hpp"

/// The sheets for print: what each holds, and what every one must hold.
namespace tidelot::sheet {

/// Room for a map between title block and foot, mm; the same on US Letter and A4.
inline constexpr double kBodyWidth = 184.0;

/// Room between title block and foot on US Letter, the smaller of the two, with five lines of
/// sources, mm.
inline constexpr double kBodyHeight = 176.0;

/// A map this narrow has its notes beside it, mm.
inline constexpr double kNarrow = 141.0;

/// The title of a sheet: a label, and the site that it is of; "" for a sheet of the whole bay. Kept
/// in parts, so that the page says it in the reader's language and run.json in English.
struct Title {
  std::string_view label;  ///< "plan_view.title"
  std::string site{};      ///< "S01"
};
/// "Plan view, site S01", in the language that is spoken.
[[nodiscard]] std::string words_of(const Title& title);

/// One sheet before it is put on paper. What must stand on each is a field, so that a sheet which
/// lacks it can be told.
struct Sheet {
  Title title;
  std::string drawings;          ///< SVG; with at least one arrow to true north and one scale bar
  std::string notes;             ///< HTML: legend, tables, sentences
  std::string horizontal_datum;  ///< plain text
  std::string vertical_datum;    ///< plain text
  std::vector<std::string> sources;  ///< plain text: files and what they are
  bool beside = false;               ///< notes run on beside a narrow drawing, and below it
  bool below = false;                ///< notes stand below the drawings, however narrow
  std::string_view why_not{};  ///< a label: what there is to draw is missing; then nothing else
                               ///< matters
};

/// Names of the required elements that a sheet lacks, in the language that is spoken; empty: it may
/// be written.
[[nodiscard]] std::vector<std::string> lacks(const Sheet& sheet);

/// A sheet with its title, datums, and the sources of those layers whose key begins with one of
/// the prefixes.
[[nodiscard]] Sheet sheet_of(Title title, const ReportData& data,
                             std::span<const std::string_view> layer_keys);
/// A sheet that cannot be drawn, and why (a label).
[[nodiscard]] Sheet no_sheet(Title title, std::string_view why);

/// "closed.gpkg: eelgrass beds, main channel": each file of the layers whose key begins with one of
/// the prefixes, and what it holds.
[[nodiscard]] std::vector<std::string> sources_of(const ReportData& data,
                                                  std::span<const std::string_view> layer_keys);

/// About how high markup stands, set in letters of so many points in a width, mm.
[[nodiscard]] double set_height(std::string_view markup, double width, double points);

/// A plain text of so many letters at most, "…" at its end where it is longer.
[[nodiscard]] std::string cut(const std::string& plain, std::size_t letters);
using page::room;

/// A line of a legend: a swatch and its words (markup).
[[nodiscard]] std::string legend_row(std::string_view swatch, std::string_view markup);
/// A swatch filled with a hatch.
[[nodiscard]] std::string swatch(std::string_view fill, Pen pen = {0.3, ""});
/// A swatch that shows a line.
[[nodiscard]] std::string line_swatch(Pen pen);
/// Land, water of which the depth is not known.
[[nodiscard]] std::string ground_legend();
/// kind: further classes of it, "one" or "two" for so many columns, "dense" for small letters.
[[nodiscard]] std::string legend(std::string_view rows, std::string_view kind = "");
/// A table of the sheets: no frame that scrolls.
[[nodiscard]] std::string table(const page::Table& table);

/// Sites that have sheets of their own: the best ones, and the plan's own boxes.
[[nodiscard]] std::vector<const Site*> chosen_sites(const ReportData& data);

// The sheets in their order. Those of a site are drawn for each chosen one.
[[nodiscard]] Sheet vicinity(const ReportData& data);
[[nodiscard]] Sheet plan_view(const Site& site, const ReportData& data);
[[nodiscard]] Sheet cross_section(const Site& site, const ReportData& data);
[[nodiscard]] Sheet gear_detail(const Site& site, const ReportData& data);
[[nodiscard]] Sheet uses(const ReportData& data);
[[nodiscard]] Sheet habitat(const ReportData& data);
[[nodiscard]] Sheet depth(const ReportData& data);
[[nodiscard]] Sheet suitability(const ReportData& data);
/// The ranked sites from `first` on, as many as a sheet holds.
[[nodiscard]] Sheet ranked_sites(const ReportData& data, std::size_t first);
[[nodiscard]] std::size_t ranked_on_a_sheet(const ReportData& data);
[[nodiscard]] Sheet not_chosen(const ReportData& data);
[[nodiscard]] Sheet from_shore(const Site& site, const ReportData& data);
[[nodiscard]] Sheet month_bar(const Site& site, const ReportData& data);
[[nodiscard]] Sheet marking(const Site& site, const ReportData& data);
[[nodiscard]] Sheet meeting(const Site& site, const ReportData& data);

}  // namespace tidelot::sheet
