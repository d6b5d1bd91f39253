// SPDX-License-Identifier: Apache-2.0
// The set of sheets on paper: title block, sheet n of N, foot.
#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "report/cautions.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"

namespace tidelot {
namespace sheet {
namespace {

constexpr std::string_view kStyle =
#include "sheets.css.inc"
    ;
constexpr std::string_view kPolicy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'";
constexpr std::string_view kBlank = "<span class=\"write\"></span>";

std::string or_blank(const std::string& plain) {
  return plain.empty() ? std::string(kBlank) : page::text(plain);
}

std::string pair(std::string_view label, const std::string& markup) {
  return fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", label, markup);
}

std::string title_block(const Sheet& sheet, const Plan& plan, int number, int of) {
  return page::element(
      "header", page::element("h2", page::text(sheet.title)) +
                    page::element("p class=\"number\"", fmt::format("Sheet {} of {}", number, of)) +
                    page::element("dl", pair("Plan", page::text(plan.title)) +
                                            pair("Waterbody", or_blank(plan.report.waterbody)) +
                                            pair("Applicant", or_blank(plan.report.applicant)) +
                                            pair("Activity", "seaweed longlines: " +
                                                                 page::text(plan.crop.title)) +
                                            pair("File number", std::string(kBlank)) +
                                            pair("Date", or_blank(plan.report.date))));
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
  for (const std::string& each : page::short_cautions()) {
    all += (all.empty() ? "" : " &middot; ") + page::text(each);
  }
  return all;
}

std::string foot(const Sheet& sheet) {
  const auto line = [](std::string_view label, const std::string& markup) {
    return page::element("p", fmt::format("<b>{}</b> {}", label, markup));
  };
  return page::element(
      "footer",
      line("Horizontal datum:", page::text(sheet.horizontal_datum)) +
          line("Vertical datum:", page::text(sheet.vertical_datum)) +
          line("Sources:", joined(sheet.sources)) + line("Cautions:", short_cautions_line()) +
          page::element("p class=\"not-for\"",
                        "Planning use &ndash; not for navigation &ndash; not a survey. The scale "
                        "holds when printed at 100 %; the bars always do."));
}

std::string on_paper(const Sheet& sheet, const Plan& plan, int number, int of) {
  return page::element(
             "section class=\"sheet\"",
             title_block(sheet, plan, number, of) +
                 page::element(sheet.beside ? "div class=\"body beside\"" : "div class=\"body\"",
                               page::element("div class=\"drawings\"", sheet.drawings) +
                                   page::element("div class=\"notes\"", sheet.notes)) +
                 foot(sheet)) +
         "\n";
}

/// Every sheet that the plan's run gives, in the order of the set; several of a site in a row.
std::vector<Sheet> all_sheets(const ReportData& data) {
  const std::vector<const Site*> sites = chosen_sites(data);
  std::vector<Sheet> all;
  const auto of_sites = [&](std::string_view title,
                            const std::function<Sheet(const Site&, const ReportData&)>& draw) {
    for (const Site* site : sites) {
      all.push_back(draw(*site, data));
    }
    if (sites.empty()) {
      all.push_back(no_sheet(std::string(title), data.sites->ranked.empty()
                                                     ? "no site was found"
                                                     : "[report] sheet_sites is 0"));
    }
  };
  all.push_back(vicinity(data));
  of_sites("Plan view", plan_view);
  of_sites("Cross-section", cross_section);
  of_sites("Gear detail", gear_detail);
  for (const auto draw : {uses, habitat, depth, suitability, ranked_sites, not_chosen}) {
    all.push_back(draw(data));
  }
  of_sites("View from shore", from_shore);
  of_sites("Months", month_bar);
  of_sites("Marking", marking);
  return all;
}

/// Why a sheet is not written; "" where it is.
std::string why_not(const Sheet& sheet) {
  if (!sheet.why_not.empty()) {
    return sheet.why_not;
  }
  std::string all;
  for (const std::string& each : lacks(sheet)) {
    all += (all.empty() ? "it lacks " : ", ") + each;
  }
  return all;
}

std::string closing(const SheetSet& set) {
  std::string all = fmt::format("{} sheets. ", set.sheets);
  for (const SheetLeftOut& each : set.left_out) {
    all += fmt::format("Not written: {} ({}). ", page::text(each.title), page::text(each.why));
  }
  if (set.left_out.empty()) {
    all += "None was left out.";
  }
  return page::element(set.sheets > 0 ? "p class=\"closing\"" : "p class=\"closing alone\"", all) +
         "\n";
}

std::string document(const Plan& plan, const std::string& body) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<title>Sheets: {}</title>\n<style>\n{}\n@page {{ size: {}; margin: 0 }}\n</style>\n</head>\n"
      "<body class=\"{}\">\n<h1>Sheets for print: {}</h1>\n{}{}</body>\n</html>\n",
      kPolicy, page::text(plan.title), kStyle, plan.report.a4 ? "A4" : "letter",
      plan.report.a4 ? "a4" : "letter", page::text(plan.title), pattern_definitions(), body);
}

}  // namespace
}  // namespace sheet

SheetSet sheets_html(const ReportData& data) {
  std::vector<sheet::Sheet> written;
  SheetSet set;
  for (sheet::Sheet& each : sheet::all_sheets(data)) {
    std::string why = sheet::why_not(each);
    if (why.empty()) {
      written.push_back(std::move(each));
    } else {
      set.left_out.push_back({each.title, std::move(why)});
    }
  }
  set.sheets = static_cast<int>(written.size());
  std::string body;
  for (std::size_t i = 0; i < written.size(); ++i) {
    body += sheet::on_paper(written[i], *data.plan, static_cast<int>(i) + 1, set.sheets);
  }
  set.html = sheet::document(*data.plan, body + sheet::closing(set));
  return set;
}

}  // namespace tidelot
