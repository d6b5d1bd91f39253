// SPDX-License-Identifier: Apache-2.0
// compare.html: the answer, the order and the maps on one sheet of paper, the figures on the next.
#include <fmt/format.h>

#include "report/cautions.hpp"
#include "report/compare_parts.hpp"
#include "report/compare_words.hpp"
#include "report/html.hpp"
#include "report/parts.hpp"

namespace tidelot {
namespace page {
namespace {

constexpr std::string_view kStyle =
#include "compare.css.inc"
    ;

constexpr std::string_view kPolicy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'";

std::vector<std::string> escaped(const std::vector<std::string>& plain) {
  std::vector<std::string> out;
  for (const std::string& each : plain) {
    out.push_back(text(each));
  }
  return out;
}

std::string names_of(const Comparison& all) {
  std::string out;
  for (std::size_t i = 0; i < all.bays.size(); ++i) {
    out += (i == 0 ? "" : i + 1 == all.bays.size() ? " and " : ", ") + all.bays[i].name;
  }
  return out;
}

/// What stands at the head of every sheet: what is not alike, what is missing.
std::string warnings_of(const Comparison& all) {
  std::string out;
  if (!all.differences.empty()) {
    out += element("div class=\"differs\"",
                   element("b",
                           "Not measured alike: crop, farm or money differ, so figures differ "
                           "for that, too.") +
                       list(escaped(difference_sentences(all))));
  }
  if (!all.failed.empty()) {
    std::vector<std::string> why;
    for (const FailedBay& one : all.failed) {
      why.push_back(text(one.plan + ": " + one.why));
    }
    out += element("div class=\"partial\"",
                   element("b", text("This comparison is " + state_words(all) + ".")) + list(why));
  }
  return out;
}

std::string head(const Comparison& all, std::string_view sheet, std::string_view title) {
  return element("header class=\"head\"",
                 element("p class=\"sheet-name\"", text(sheet)) +
                     element(title, text(names_of(all))) +
                     element("p class=\"not-for\"",
                             "Planning use &ndash; not for navigation &ndash; not a survey")) +
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
  return element("h2", "How to read this") + element("ul class=\"notes\"", items);
}

std::string first_sheet(const Comparison& all, const std::vector<MeasureOrder>& orders,
                        MapWriter& pictures) {
  return element("section", head(all, "Estuaries side by side, 1 of 2", "h1") + says(all) +
                                order_table(all, orders) + pair_table(all, orders) +
                                target_table(all) + compare_maps(all, pictures) + notes(all) +
                                cautions_foot());
}

std::string second_sheet(const Comparison& all) {
  std::string full;
  for (const std::string& each : cautions()) {
    full += element("li", text(each));
  }
  return element("section class=\"second\"",
                 head(all, "Estuaries side by side, 2 of 2: figures", "h2") + measure_tables(all) +
                     element("h2", "Cautions") + element("ol class=\"in-full\"", full));
}

}  // namespace
}  // namespace page

std::string compare_html(const Comparison& all, MapWriter& pictures) {
  const std::vector<MeasureOrder> orders = orders_of(all);
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<title>{}</title>\n<style>\n{}</style>\n</head>\n<body>\n<main>\n{}\n{}\n</main>\n</body>\n"
      "</html>\n",
      page::kPolicy, page::text("Estuaries side by side: " + page::names_of(all)), page::kStyle,
      page::first_sheet(all, orders, pictures), page::second_sheet(all));
}

}  // namespace tidelot
