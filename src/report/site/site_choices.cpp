// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "report/parts.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

std::string what(Choice::Of of) {
  switch (of) {
    case Choice::Of::line_depth:
      return label("choices.line_depth");
    case Choice::Of::stocking:
      return label("choices.stocking");
    case Choice::Of::fronds:
      return label("choices.fronds");
    case Choice::Of::harvest_days:
      return label("choices.harvest_every");
    case Choice::Of::season:
      break;
  }
  return label("choices.season");
}

std::string value(const Choice& choice, Units units) {
  switch (choice.of) {
    case Choice::Of::line_depth:
      return in_line(length(choice.value), units);
    case Choice::Of::stocking:
      return fmt::format("{} g/m", shortest(choice.value));
    case Choice::Of::fronds:
      return plain_say("choices.per_m", shortest(choice.value));
    case Choice::Of::harvest_days:
      return plain_say("choices.days", shortest(choice.value));
    case Choice::Of::season:
      break;
  }
  return dates(choice.outplant, choice.last_haul);
}

std::vector<std::string> row(const Choice& choice, Units units) {
  const std::string change = fmt::format("{} {}", what(choice.of), value(choice, units));
  return {choice.plan ? element("b", plain_say("choices.the_plan", change)) : change,
          in_line(crop(choice.yield_t), units), in_line(nitrogen(choice.nitrogen_kg), units),
          fmt::format("{}", choice.harvests)};
}

/// The change that adds most by one measure, against the plan's own figure.
std::string best(const Site& site, double Choice::*measure, double planned, const std::string& of,
                 Units units) {
  const Choice& most =
      *std::max_element(site.choices.begin(), site.choices.end(),
                        [&](const Choice& a, const Choice& b) { return a.*measure < b.*measure; });
  if (!(most.*measure > planned)) {
    return plain_say("choices.no_single_change_listed_here_gives", of);
  }
  if (!(planned > 0.0)) {
    return plain_say("choices.most", of, what(most.of), value(most, units));
  }
  return plain_say("choices.most_more_than_the_plan", of, what(most.of), value(most, units),
                   percent(most.*measure / planned - 1.0));
}

}  // namespace

std::string site_choices(const Site& site, const Plan& plan) {
  if (site.choices.empty()) {
    return "";
  }
  const Units units = plan.report.units;
  Table table{label("choices.one_thing_changed_at_a_time"),
              {{label("choices.change")},
               {label("choices.fresh_yield"), true},
               {label("choices.nitrogen_carried_off"), true},
               {label("choices.hauls"), true}},
              {},
              "other-choices"};
  for (const Choice& choice : site.choices) {
    table.rows.push_back(row(choice, units));
  }
  return html(table) +
         element(
             "p class=\"note\"",
             best(site, &Choice::nitrogen_kg, site.nitrogen_kg, label("choices.nitrogen"), units) +
                 " " + best(site, &Choice::yield_t, site.yield_t, label("choices.yield"), units) +
                 " " + label("choices.whole_site_one_season_net") + " " +
                 (plan.farm.fixed_line ? label("choices.line_depths_that_would_not_clear")
                                       : label("choices.line_depths_that_would_not_clear_2")));
}

}  // namespace tidelot::page
