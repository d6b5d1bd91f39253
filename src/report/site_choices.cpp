// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "report/html.hpp"
#include "report/parts.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

std::string what(Choice::Of of) {
  switch (of) {
    case Choice::Of::line_depth:
      return "Line depth";
    case Choice::Of::stocking:
      return "Stocking";
    case Choice::Of::fronds:
      return "Fronds";
    case Choice::Of::harvest_days:
      return "Harvest every";
    case Choice::Of::season:
      break;
  }
  return "Season";
}

std::string value(const Choice& choice, Units units) {
  switch (choice.of) {
    case Choice::Of::line_depth:
      return in_line(length(choice.value), units);
    case Choice::Of::stocking:
      return shortest(choice.value) + " g/m";
    case Choice::Of::fronds:
      return shortest(choice.value) + " per m";
    case Choice::Of::harvest_days:
      return shortest(choice.value) + " days";
    case Choice::Of::season:
      break;
  }
  return dates(choice.outplant, choice.last_haul);
}

std::vector<std::string> row(const Choice& choice, Units units) {
  const std::string label = what(choice.of) + " " + value(choice, units);
  return {choice.plan ? element("b", label + " (the plan)") : label,
          in_line(crop(choice.yield_t), units), in_line(nitrogen(choice.nitrogen_kg), units),
          fmt::format("{}", choice.harvests)};
}

std::string lower(std::string text) {
  text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

/// The change that adds most by one measure, against the plan's own figure.
std::string best(const Site& site, double Choice::*measure, double planned, const std::string& of,
                 Units units) {
  const Choice& most =
      *std::max_element(site.choices.begin(), site.choices.end(),
                        [&](const Choice& a, const Choice& b) { return a.*measure < b.*measure; });
  if (!(most.*measure > planned)) {
    return fmt::format("No single change listed here gives more {} than the plan.", of);
  }
  const std::string more = planned > 0.0 ? fmt::format(" ({} more than the plan)",
                                                       percent(most.*measure / planned - 1.0))
                                         : "";
  return fmt::format("Most {}: {} {}{}.", of, lower(what(most.of)), value(most, units), more);
}

}  // namespace

std::string site_choices(const Site& site, const Plan& plan) {
  if (site.choices.empty()) {
    return "";
  }
  const Units units = plan.report.units;
  Table table{"One thing changed at a time, the rest as in the plan",
              {{"Change"}, {"Fresh yield", true}, {"Nitrogen carried off", true}, {"Hauls", true}},
              {},
              "other-choices"};
  for (const Choice& choice : site.choices) {
    table.rows.push_back(row(choice, units));
  }
  return html(table) +
         element("p class=\"note\"",
                 best(site, &Choice::nitrogen_kg, site.nitrogen_kg, "nitrogen", units) + " " +
                     best(site, &Choice::yield_t, site.yield_t, "yield", units) +
                     " Whole site, one season, net of the stocking, with the crop's own draw-down "
                     "of nitrogen. Gains do not add up; work, gear and seed are not counted. Line "
                     "depths that would not clear the bottom at the lowest tide" +
                     (plan.farm.fixed_line ? ", or come out of the water then," : "") +
                     " are left out.");
}

}  // namespace tidelot::page
