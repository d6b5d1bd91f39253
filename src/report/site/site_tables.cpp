// SPDX-License-Identifier: Apache-2.0
// The ranked sites in a table, and those listed apart.
#include <fmt/format.h>

#include "report/parts.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/rank_words.hpp"
#include "report/words/say.hpp"
#include "report/words/spread_words.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

std::vector<Column> site_columns() {
  return {{label("table.rank")},           {label("table.where")},
          {label("table.area"), true},     {label("table.suitability"), true},
          {label("table.yield"), true},    {label("table.nitrogen"), true},
          {label("table.depth"), true},    {label("table.season")},
          {label("table.longline"), true}, {label("table.landing"), true},
          {label("table.nearest_closed")}, {label("table.limited_by")}};
}

std::string closed_cell(const Site& site, const Plan& plan) {
  const RuleDistance* rule = nearest_closed(site, plan);
  return rule == nullptr ? label("table.none_in_the_plan")
                         : text(rule_name(*rule, plan)) +
                               element("span class=\"other\"",
                                       in_line(distance(rule->distance_m), plan.report.units));
}

std::string rank_cell(const Site& site) {
  const std::string name = plain_name(site);
  const bool named = is_ranked(site) && site.own > 0;
  const std::string rank =
      named ? fmt::format("{}, {}", site.rank, short_name(site)) : short_name(site);
  return fmt::format(
      "<a class=\"to-sheet\" href=\"#site-{0}\">{1}</a> <a class=\"to-map\" "
      "href=\"#on-map-{0}\" aria-label=\"{2}\">{3}</a>",
      name, rank, say("table.site_on_the_map", text(called(site))), label("table.map"));
}

std::vector<std::string> site_row(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  return {rank_cell(site),
          decimal_minutes(site.centre.lat, label("words.north_south"), 3) +
              element("span class=\"other\"",
                      decimal_minutes(site.centre.lon, label("words.east_west"), 3)),
          stacked(area(site.area_ha), units),
          fixed(site.suitability, 2),
          stacked(crop(site.yield_t), units) + yield_range_cell(site, units),
          stacked(nitrogen(site.nitrogen_kg), units) + nitrogen_range_cell(site, units),
          stacked(depths(site.depth_min_m, site.depth_max_m), units),
          date(site.outplant) +
              element("span class=\"other\"", plain_say("table.to_date", date(site.last_haul))),
          stacked(length(site.layout.line_m, 0), units),
          site.landing_km ? stacked(distance(*site.landing_km * 1000.0), units)
                          : label("table.no_landing_given"),
          closed_cell(site, plan),
          text(translated(site.limited_by))};
}

std::string site_table(const std::vector<Site>& sites, const std::string& caption,
                       const Plan& plan) {
  Table table{caption, site_columns(), {}, "sites"};
  for (const Site& site : sites) {
    table.rows.push_back(site_row(site, plan));
  }
  return html(table);
}

}  // namespace

std::string site_tables(const ReportData& data) {
  std::string all;
  if (!data.sites->ranked.empty()) {
    all += site_table(data.sites->ranked, label("table.the_sites"), *data.plan);
    all += element("p class=\"note\"",
                   text(rank_sentence(data.sites->ranked)) + " " +
                       plain_say("table.about", draw_down_of_all(data.sites->ranked)) + " " +
                       text(together_sentence(data.sites->ranked, data.plan->report.units)) + " " +
                       text(spread_basis(*data.plan)) + ". " +
                       plain_say("table.datum", text(data.plan->depth.datum)));
  }
  if (!data.sites->apart.empty()) {
    const bool own = data.sites->apart.front().own > 0;
    all += site_table(data.sites->apart,
                      label(own ? "table.listed_apart_own" : "table.listed_apart"), *data.plan);
  }
  return all;
}

}  // namespace tidelot::page
