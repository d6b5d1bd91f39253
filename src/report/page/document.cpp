// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "report/page/whole_page.hpp"
#include "report/parts.hpp"
#include "report/words/cautions.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"

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
    ,
#include "fold.js.inc"
};

/// One scope of its own, so that no name of it meets one of the browser's.
std::string whole_script() {
  std::string all = "\"use strict\";\n(() => {\n";
  for (const std::string_view part : kScript) {
    all += part;
  }
  return all + "})();\n";
}

/// A caution in the reader's language, and as it is compiled in where that differs: a translation
/// adds to a caution, it never replaces one.
std::string in_both(const std::string& name, const std::string& compiled_in) {
  const std::string& spoken = label(name);
  return text(spoken) + (spoken == compiled_in
                             ? ""
                             : " " + element("span lang=\"en\"", "(" + text(compiled_in) + ")"));
}

/// What the script reads: data, which nothing runs.
std::string data(const Document& document) {
  return document.script ? element("script type=\"application/json\" id=\"map-data\"",
                                   script_json(document.json)) +
                               "\n"
                         : "";
}

}  // namespace

std::string html(const Document& document) {
  return html(WholePage{text(document.title), std::string(kStyle) + document.style,
                        document.body + "\n" + data(document),
                        document.script ? whole_script() : ""});
}

std::string title_block(const Plan& plan, std::string_view sheet) {
  std::string who;
  if (!plan.report.waterbody.empty()) {
    who += element("span", say("words.waterbody", text(plan.report.waterbody)));
  }
  if (!plan.report.applicant.empty()) {
    who += element("span", say("words.applicant", text(plan.report.applicant)));
  }
  if (!plan.report.date.empty()) {
    who += element("span", say("words.date", text(plan.report.date)));
  }
  return element("header class=\"title-block\"",
                 element("p class=\"sheet\"", text(sheet)) + element("h1", text(plan.title)) +
                     element("p class=\"who\"", who) +
                     element("p class=\"not-for\"", say("words.not_for")));
}

std::string drawn_for(const ReportData& data, std::string_view positions) {
  const Plan& plan = *data.plan;
  std::vector<std::string> facts{text(plan.title)};
  if (!plan.report.waterbody.empty()) {
    facts.push_back(say("words.waterbody", text(plan.report.waterbody)));
  }
  if (!plan.report.applicant.empty()) {
    facts.push_back(say("words.applicant", text(plan.report.applicant)));
  }
  facts.insert(
      facts.end(),
      {say("words.date", plan.report.date.empty() ? "____________" : text(plan.report.date)),
       say("words.positions", text(positions)), say("words.grid", text(data.grid_crs_name)),
       say("words.depths", text(plan.depth.datum)),
       say("words.sources", say("sources.layers_and_sources"))});
  std::string all;
  for (const std::string& fact : facts) {
    all += element("span", fact) + " ";
  }
  return element("p class=\"drawn-for\"", all);
}

std::string for_paper(const std::string& content) {
  return element("div class=\"paper-only\"", content);
}

std::vector<std::string> short_cautions_spoken() {
  std::vector<std::string> all;
  for (const std::string& phrase : short_cautions()) {
    all.push_back(in_both(fmt::format("cautions.short_{:02d}", all.size() + 1), phrase));
  }
  return all;
}

std::string cautions_foot() {
  std::string items;
  const std::vector<std::string> phrases = short_cautions_spoken();
  for (std::size_t i = 0; i < phrases.size(); ++i) {
    items += fmt::format("<span><b>{}</b> {}</span> ", i + 1, phrases[i]);
  }
  return element("footer class=\"cautions\"",
                 element("b", say("cautions.title") + ".") + " " + items);
}

std::string cautions_in_full() {
  std::string items;
  const std::vector<std::string>& texts = cautions();
  for (std::size_t i = 0; i < texts.size(); ++i) {
    items += element("li", in_both(fmt::format("cautions.full_{:02d}", i + 1), texts[i]));
  }
  return element("section id=\"cautions\"",
                 element("h2", say("cautions.title")) + element("ol", items));
}

}  // namespace tidelot::page
