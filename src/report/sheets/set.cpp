// SPDX-License-Identifier: Apache-2.0
// The set of sheets on paper: title block, sheet n of N, foot.
#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "report/page/whole_page.hpp"
#include "report/parts.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words/say.hpp"

namespace tidelot {
namespace sheet {
namespace {

constexpr std::string_view kStyle =
#include "sheets.css.inc"
    ;
constexpr std::string_view kBlank = "<span class=\"write\"></span>";

// Letters of a field of the title block: two lines.
constexpr std::size_t kMostTitle = 76;
constexpr std::size_t kMostField = 58;

std::string or_blank(const std::string& plain) {
  return plain.empty() ? std::string(kBlank) : page::text(cut(plain, kMostField));
}

std::string pair(std::string_view label, const std::string& markup) {
  return fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", page::say(label), markup);
}

std::string title_block(const Sheet& sheet, const Plan& plan, int number, int of) {
  return page::element(
      "header",
      page::element("h2", page::text(words_of(sheet.title))) +
          page::element("p class=\"number\"", page::say("paper.sheet_of", number, of)) +
          page::element("dl", pair("paper.plan", page::text(cut(plan.title, kMostTitle))) +
                                  pair("paper.waterbody", or_blank(plan.report.waterbody)) +
                                  pair("paper.applicant", or_blank(plan.report.applicant)) +
                                  pair("paper.activity", page::say("paper.seaweed_longlines",
                                                                   page::text(plan.crop.title))) +
                                  pair("paper.file_number", std::string(kBlank)) +
                                  pair("paper.date", or_blank(plan.report.date))));
}

std::string joined(const std::vector<std::string>& plain) {
  std::string all;
  for (const std::string& each : plain) {
    all += (all.empty() ? "" : "; ") + page::text(each);
  }
  return all;
}

std::string short_cautions_line() {
  std::string all;
  for (const std::string& each : page::short_cautions_spoken()) {
    all += (all.empty() ? "" : " &middot; ") + each;
  }
  return all;
}

std::string foot(const Sheet& sheet) {
  const auto line = [](std::string_view label, const std::string& markup) {
    return page::element("p", fmt::format("<b>{}</b> {}", page::say(label), markup));
  };
  return page::element(
      "footer", line("paper.horizontal_datum", page::text(sheet.horizontal_datum)) +
                    line("paper.vertical_datum", page::text(sheet.vertical_datum)) +
                    line("paper.sources", joined(sheet.sources)) +
                    line("paper.cautions", short_cautions_line()) +
                    page::element("p class=\"not-for\"", page::say("words.not_for") + ". " +
                                                             page::say("paper.scale_holds")));
}

std::string on_paper(const Sheet& sheet, const Plan& plan, int number, int of) {
  return page::element("section class=\"sheet\"",
                       title_block(sheet, plan, number, of) +
                           page::element(sheet.beside  ? "div class=\"body beside\""
                                         : sheet.below ? "div class=\"body below\""
                                                       : "div class=\"body\"",
                                         page::element("div class=\"drawings\"", sheet.drawings) +
                                             page::element("div class=\"notes\"", sheet.notes)) +
                           foot(sheet)) +
         "\n";
}

/// The table of ranked sites, over as many sheets as it needs, three at most.
void add_ranked(const ReportData& data, std::vector<Sheet>& all) {
  constexpr std::size_t kMostSheets = 3;
  const std::size_t on_one = ranked_on_a_sheet(data);
  const std::size_t sites = data.sites->ranked.size();
  std::size_t first = 0;
  do {
    all.push_back(ranked_sites(data, first));
    first += on_one;
  } while (first < std::min(sites, kMostSheets * on_one));
}

/// Every sheet that the plan's run gives, in the order of the set; several of a site in a row.
std::vector<Sheet> all_sheets(const ReportData& data) {
  const std::vector<const Site*> sites = chosen_sites(data);
  std::vector<Sheet> all;
  const auto of_sites = [&](std::string_view title_label,
                            const std::function<Sheet(const Site&, const ReportData&)>& draw) {
    for (const Site* site : sites) {
      all.push_back(draw(*site, data));
    }
    if (sites.empty()) {
      all.push_back(no_sheet({title_label}, data.sites->ranked.empty() ? "paper.no_site_was_found"
                                                                       : "paper.sheet_sites_is_0"));
    }
  };
  all.push_back(vicinity(data));
  of_sites("plan_view.title", plan_view);
  of_sites("section.title", cross_section);
  of_sites("gear.title", gear_detail);
  for (const auto draw : {uses, habitat, depth, suitability}) {
    all.push_back(draw(data));
  }
  add_ranked(data, all);
  all.push_back(not_chosen(data));
  of_sites("from_shore.title", from_shore);
  of_sites("month_bar.title", month_bar);
  of_sites("marking.title", marking);
  of_sites("meeting.title", meeting);
  return all;
}

bool is_written(const Sheet& sheet) { return sheet.why_not.empty() && lacks(sheet).empty(); }

/// What a sheet is called that is not written, and why, in the language that is spoken.
SheetLeftOut left_out(const Sheet& sheet) {
  return {words_of(sheet.title),
          sheet.why_not.empty()
              ? page::plain_say("paper.it_lacks", fmt::format("{}", fmt::join(lacks(sheet), ", ")))
              : page::label(sheet.why_not)};
}

std::string closing(int written, std::span<const Sheet> not_written) {
  std::string all = page::say("paper.count", written) + " ";
  for (const Sheet& sheet : not_written) {
    const SheetLeftOut told = left_out(sheet);
    all += page::say("paper.not_written", page::text(told.title), page::text(told.why)) + " ";
  }
  if (not_written.empty()) {
    all += page::say("paper.none_was_left_out");
  }
  return page::element(written > 0 ? "p class=\"closing\"" : "p class=\"closing alone\"", all) +
         "\n";
}

std::string document(const Plan& plan, const std::string& body) {
  const char* const paper = plan.report.a4 ? "A4" : "letter";
  const std::string heading =
      page::element("h1", page::say("paper.sheets_for_print", page::text(plan.title)));
  return page::html(page::WholePage{
      page::say("paper.sheets", page::text(plan.title)),
      fmt::format("{}\n@page {{ size: {}; margin: 0 }}\n", kStyle, paper),
      page::element("main", "\n" + heading + "\n" + pattern_definitions() + body) + "\n", "",
      plan.report.a4 ? "a4" : "letter"});
}

}  // namespace
}  // namespace sheet

SheetSet sheets_html(const ReportData& data) {
  const page::Speaking speaking(*data.plan->report.labels);
  std::vector<sheet::Sheet> written = sheet::all_sheets(data);
  const auto first_out = std::stable_partition(written.begin(), written.end(), sheet::is_written);
  const std::vector<sheet::Sheet> not_written(first_out, written.end());
  written.erase(first_out, written.end());
  SheetSet set;
  set.sheets = static_cast<int>(written.size());
  std::string body;
  for (std::size_t i = 0; i < written.size(); ++i) {
    body += sheet::on_paper(written[i], *data.plan, static_cast<int>(i) + 1, set.sheets);
  }
  set.html = sheet::document(*data.plan, body + sheet::closing(set.sheets, not_written));
  const page::Speaking english(*Labels::built_in());  // of the summary and run.json
  std::transform(not_written.begin(), not_written.end(), std::back_inserter(set.left_out),
                 sheet::left_out);
  return set;
}

}  // namespace tidelot
