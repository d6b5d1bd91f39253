// SPDX-License-Identifier: Apache-2.0
// compare.html: the answer, the order and the maps on one sheet of paper, the figures on the next.
#include <fmt/format.h>

#include "report/compare/compare_parts.hpp"
#include "report/compare/compare_words.hpp"
#include "report/page/whole_page.hpp"
#include "report/parts.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"

namespace tidelot {
namespace page {
namespace {

constexpr std::string_view kStyle =
#include "compare.css.inc"
    ;

std::vector<std::string> escaped(const std::vector<std::string>& plain) {
  std::vector<std::string> out;
  out.reserve(plain.size());
  for (const std::string& each : plain) {
    out.push_back(text(each));
  }
  return out;
}

/// What stands at the head of every sheet: what is not alike, what is missing.
std::string warnings_of(const Comparison& all) {
  std::string out;
  if (!all.differences.empty()) {
    out += element("div class=\"differs\"", element("b", say("compare.not_alike")) +
                                                list(escaped(difference_sentences(all))));
  }
  if (!all.failed.empty()) {
    std::vector<std::string> why;
    for (const FailedBay& one : all.failed) {
      why.push_back(text(one.plan) + ": " + element("span lang=\"en\"", text(one.why)));
    }
    out += element("div class=\"partial\"",
                   element("b", say("compare.is_partial", text(state_words(all)))) + list(why));
  }
  return out;
}

std::string head(const Comparison& all, std::string_view sheet, std::string_view title) {
  return element("header class=\"head\"",
                 element("p class=\"sheet-name\"", text(sheet)) +
                     element(title, text(names_of(all))) +
                     element("p class=\"not-for\"", say("words.not_for"))) +
         warnings_of(all);
}

std::string says(const Comparison& all) {
  std::string out;
  for (const std::string& each : compare_sentences(all)) {
    out += text(each) + " ";
  }
  return element("p class=\"says\"", out);
}

std::string notes(const Comparison& all) {
  std::string items;
  for (const std::string& each : compare_notes(all)) {
    items += element("li", text(each));
  }
  return element("h2", say("compare.how_to_read")) + element("ul class=\"notes\"", items);
}

/// With two crops a sheet more.
int sheets_of(const Comparison& all) { return all.crops ? 3 : 2; }

std::string first_sheet(const Comparison& all, const std::vector<MeasureOrder>& orders,
                        MapWriter& pictures) {
  return element("section", head(all, plain_say("compare.sheet", 1, sheets_of(all)), "h1") +
                                says(all) + order_table(all, orders) + pair_table(all, orders) +
                                target_table(all) + compare_maps(all, pictures) + notes(all) +
                                cautions_foot());
}

std::string crops_sheet(const Comparison& all) {
  return all.crops ? element("section class=\"next\"",
                             head(all, plain_say("crops.sheet", 2, sheets_of(all)), "h2") +
                                 crops_section(all) + cautions_foot())
                   : "";
}

std::string last_sheet(const Comparison& all) {
  const int last = sheets_of(all);
  return element("section class=\"next\"",
                 head(all, plain_say("compare.sheet_figures", last, last), "h2") +
                     measure_tables(all) + cautions_in_full());
}

}  // namespace
}  // namespace page

std::string compare_html(const Comparison& all, MapWriter& pictures) {
  const page::Speaking speaking(*all.labels);
  const std::vector<MeasureOrder> orders = orders_of(all);
  const std::vector<std::string> sheets{page::first_sheet(all, orders, pictures),
                                        page::crops_sheet(all), page::last_sheet(all)};
  return page::html(page::WholePage{page::say("compare.title", page::text(page::names_of(all))),
                                    std::string(page::kStyle),
                                    page::element("main", page::lines(sheets))});
}

}  // namespace tidelot
