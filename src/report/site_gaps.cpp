// SPDX-License-Identifier: Apache-2.0
// What a site's figures rest on, and when it is hauled.
#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "report/html.hpp"
#include "report/parts.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot::page {
namespace {

/// "the same everywhere and all year" of a source that is no map; "" of one that is.
std::string sameness(const WaterPlan& water) {
  if (std::holds_alternative<double>(water.source)) {
    return "one number, the same everywhere and all year";
  }
  return std::holds_alternative<Monthly>(water.source) ? "twelve numbers, the same everywhere" : "";
}

void add_sameness(const std::string& what, const WaterPlan& water,
                  std::vector<std::string>& items) {
  if (const std::string same = sameness(water); !same.empty()) {
    items.push_back(what + ": " + same);
  }
}

std::size_t defaults_in_force(const Plan& plan) {
  return static_cast<std::size_t>(std::count_if(plan.keys.begin(), plan.keys.end(),
                                                [](const ResolvedKey& key) { return !key.given; }));
}

bool is_default(const Plan& plan, std::string_view key) {
  return std::any_of(plan.keys.begin(), plan.keys.end(),
                     [&](const ResolvedKey& each) { return each.key == key && !each.given; });
}

}  // namespace

std::string data_gaps(const Site& site, const Plan& plan) {
  std::vector<std::string> items;
  for (const std::string& gap : site.gaps) {
    items.push_back(text(gap));
  }
  add_sameness("Temperature", plan.temperature, items);
  add_sameness("Salinity", plan.salinity, items);
  add_sameness("Light", plan.light, items);
  if (plan.nitrate && plan.ammonium) {
    add_sameness("Nitrate", *plan.nitrate, items);
    add_sameness("Ammonium", *plan.ammonium, items);
  } else {
    add_sameness("Nitrogen", plan.nitrogen, items);
  }
  add_sameness("Current", plan.current, items);
  for (const char* key : {"depth.tidal_range_m", "depth.lowest_tide_m"}) {
    if (is_default(plan, key)) {
      items.push_back(fmt::format("{}: a default, not this bay's", key));
    }
  }
  const std::size_t defaults = defaults_in_force(plan);
  if (defaults > 0) {
    items.push_back(
        fmt::format("{} keys at their defaults, listed under "
                    "<a href=\"#assumptions\">Assumptions</a>",
                    defaults));
  }
  return items.empty() ? "" : element("h4", "What the figures rest on") + list(items);
}

std::string harvest_table(const Site& site, const Plan& plan) {
  const std::vector<CalendarHaul> calendar = harvest_calendar(site);
  if (calendar.empty()) {
    return "";
  }
  const Units units = plan.report.units;
  Table table{"Harvest calendar: fresh weight expected",
              {{"Day"}, {"Whole site", true}, {"Per metre of longline", true}},
              {},
              "calendar"};
  for (const CalendarHaul& haul : calendar) {
    table.rows.push_back(
        {date(haul.day), in_line(crop(haul.fresh_t), units),
         in_line(crop_per_m(1000.0 * haul.fresh_t / std::max(1.0, site.layout.line_m)), units)});
  }
  return html(table) +
         element(
             "p class=\"note\"",
             fmt::format("The days and their shares are those of one season at the site's "
                         "centre. Weights are gross: together they are the site's yield of {} "
                         "and the {} that were stocked.",
                         in_line(crop(site.yield_t), units), in_line(crop(site.stocked_t), units)));
}

}  // namespace tidelot::page
