// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "report/cautions.hpp"
#include "report/html.hpp"
#include "report/parts.hpp"

namespace tidelot::page {
namespace {

constexpr std::string_view kStyle =
#include "page.css.inc"
    ;

// Parts of one script, in this order.
constexpr std::string_view kScript[] = {
#include "codes.js.inc"
    ,
#include "paint.js.inc"
    ,
#include "view.js.inc"
    ,
#include "read.js.inc"
    ,
#include "choose.js.inc"
};

constexpr std::string_view kPolicy =
    "default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'unsafe-inline'";

/// One scope of its own, so that no name of it meets one of the browser's.
std::string whole_script() {
  std::string all = "\"use strict\";\n(() => {\n";
  for (const std::string_view part : kScript) {
    all += part;
  }
  return all + "})();\n";
}

std::string script(const Document& document) {
  if (!document.script) {
    return "";
  }
  return element("script type=\"application/json\" id=\"map-data\"", script_json(document.json)) +
         "\n" + element("script", whole_script()) + "\n";
}

}  // namespace

std::string html(const Document& document) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<title>{}</title>\n<style>\n{}</style>\n</head>\n<body>\n{}\n{}</body>\n</html>\n",
      kPolicy, text(document.title), kStyle, document.body, script(document));
}

std::string title_block(const Plan& plan, std::string_view sheet) {
  std::string who;
  if (!plan.report.waterbody.empty()) {
    who += element("span", "Waterbody: " + text(plan.report.waterbody));
  }
  if (!plan.report.applicant.empty()) {
    who += element("span", "Applicant: " + text(plan.report.applicant));
  }
  return element("header class=\"title-block\"",
                 element("p class=\"sheet\"", text(sheet)) + element("h1", text(plan.title)) +
                     element("p class=\"who\"", who) +
                     element("p class=\"not-for\"",
                             "Planning use &ndash; not for navigation &ndash; not a survey"));
}

std::string drawn_for(const ReportData& data, std::string_view positions) {
  const Plan& plan = *data.plan;
  std::vector<std::string> facts{text(plan.title)};
  if (!plan.report.waterbody.empty()) {
    facts.push_back("Waterbody: " + text(plan.report.waterbody));
  }
  if (!plan.report.applicant.empty()) {
    facts.push_back("Applicant: " + text(plan.report.applicant));
  }
  facts.insert(
      facts.end(),
      {"Date: ____________", "Positions: " + text(positions), "Grid: " + text(data.grid_crs_name),
       "Depths: " + text(plan.depth.datum), "Sources: report.html, Layers and sources"});
  std::string all;
  for (const std::string& fact : facts) {
    all += element("span", fact) + " ";
  }
  return element("p class=\"drawn-for\"", all);
}

std::string for_paper(const std::string& content) {
  return element("div class=\"paper-only\"", content);
}

std::string cautions_foot() {
  std::string items;
  const std::vector<std::string>& phrases = short_cautions();
  for (std::size_t i = 0; i < phrases.size(); ++i) {
    items += fmt::format("<span><b>{}</b> {}</span> ", i + 1, text(phrases[i]));
  }
  return element("footer class=\"cautions\"", "<b>Cautions.</b> " + items);
}

std::string cautions_in_full() {
  std::string items;
  for (const std::string& each : cautions()) {
    items += element("li", text(each));
  }
  return element("section id=\"cautions\"", element("h2", "Cautions") + element("ol", items));
}

}  // namespace tidelot::page
