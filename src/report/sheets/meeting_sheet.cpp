// SPDX-License-Identifier: Apache-2.0
// Sheet: what a town meeting asks, with answers and room to write.
#include <array>

#include "report/page/meeting.hpp"
#include "report/sheets/ground.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words/say.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 4> kLayers{"depth", "land", "closed", "near"};

}  // namespace

Sheet meeting(const Site& site, const ReportData& data) {
  Sheet out = sheet_of({"meeting.title", site.name}, data, kLayers);
  out.sources.push_back(page::label("from_shore.computed"));
  out.drawings = key_map(site, data, "key-meeting-" + site.name, kBodyWidth - 1.0, 24.0);
  page::Table rows{page::plain_say("meeting.of_site", site.name),
                   {{page::label("meeting.question")}, {page::label("meeting.answer")}},
                   {},
                   "questions"};
  for (const auto& [question, answer] : page::meeting_questions(site, data)) {
    rows.rows.push_back({page::text(question), answer});
  }
  out.below = true;
  out.notes = table(rows);
  return out;
}

}  // namespace tidelot::sheet
