// SPDX-License-Identifier: Apache-2.0
// What a site's figures rest on, and when it is hauled.
#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "report/parts.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot::page {
namespace {

/// "the same everywhere and all year" of a source that is no map; "" of one that is.
std::string sameness(const WaterPlan& water) {
  if (std::holds_alternative<double>(water.source)) {
    return label("gaps.one_number_the_same_everywhere");
  }
  return std::holds_alternative<Monthly>(water.source)
             ? label("gaps.twelve_numbers_the_same_everywhere")
             : "";
}

void add_sameness(const std::string& what, const WaterPlan& water,
                  std::vector<std::string>& items) {
  if (const std::string same = sameness(water); !same.empty()) {
    items.push_back(fmt::format("{}: {}", what, same));
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

std::vector<std::string> same_everywhere(const Plan& plan) {
  std::vector<std::string> items;
  add_sameness(label("gaps.temperature"), plan.temperature, items);
  add_sameness(label("gaps.salinity"), plan.salinity, items);
  add_sameness(label("gaps.light"), plan.light, items);
  if (plan.nitrate && plan.ammonium) {
    add_sameness(label("gaps.nitrate"), *plan.nitrate, items);
    add_sameness(label("gaps.ammonium"), *plan.ammonium, items);
  } else {
    add_sameness(label("gaps.nitrogen"), plan.nitrogen, items);
  }
  add_sameness(label("gaps.current"), plan.current, items);
  return items;
}

std::string data_gaps(const Site& site, const Plan& plan) {
  std::vector<std::string> items;
  for (const std::string& gap : site.gaps) {
    items.push_back(text(translated(gap)));
  }
  for (const std::string& same : same_everywhere(plan)) {
    items.push_back(text(same));
  }
  for (const char* key : {"depth.tidal_range_m", "depth.lowest_tide_m"}) {
    if (is_default(plan, key)) {
      items.push_back(plain_say("gaps.a_default_not_this_bays", key));
    }
  }
  const std::size_t defaults = defaults_in_force(plan);
  if (defaults > 0) {
    items.push_back(plain_say("gaps.keys_at_their_defaults_listed_under", defaults,
                              "<a href=\"#assumptions\">" + label("sources.assumptions") + "</a>"));
  }
  return items.empty() ? "" : element("h4", label("gaps.what_the_figures_rest_on")) + list(items);
}

std::string harvest_table(const Site& site, const Plan& plan) {
  const std::vector<CalendarHaul> calendar = harvest_calendar(site);
  if (calendar.empty()) {
    return "";
  }
  const Units units = plan.report.units;
  Table table{label("gaps.harvest_calendar_fresh_weight_expected"),
              {{label("gaps.day")},
               {label("gaps.whole_site"), true},
               {label("gaps.per_metre_of_longline"), true}},
              {},
              "calendar"};
  for (const CalendarHaul& haul : calendar) {
    table.rows.push_back(
        {date(haul.day), in_line(crop(haul.fresh_t), units),
         in_line(crop_per_m(1000.0 * haul.fresh_t / std::max(1.0, site.layout.line_m)), units)});
  }
  return html(table) + element("p class=\"note\"", plain_say("gaps.the_days_and_their_shares_are",
                                                             in_line(crop(site.yield_t), units),
                                                             in_line(crop(site.stocked_t), units)));
}

}  // namespace tidelot::page
