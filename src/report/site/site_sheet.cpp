// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "report/page/meeting.hpp"
#include "report/parts.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/spread_words.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

using Rows = std::vector<std::pair<std::string, std::string>>;

std::string mean_depth(double m, Units units) {
  return std::isnan(m) ? "" : ", " + plain_say("site.mean", in_line(length(m), units));
}

std::string current_words(const Site& site) {
  const std::string speed =
      site.season ? plain_say("site.m_s_mean_over_the_season", fixed(site.season->current_m_s, 2))
                  : label("site.not_known_at_the_centre");
  return speed + "; " +
         (site.axis_deg ? plain_say("site.runs_along_from_true_north", fixed(*site.axis_deg, 0))
                        : label("site.nothing_says_which_way_it_runs"));
}

/// At the most exposed cell.
std::string wave_words(const PlaceWaves& w, const Plan& plan) {
  const Units units = plan.report.units;
  return plain_say("site.wave_words", in_line(length(w.height_50y_m, 2), units),
                   fixed(w.period_50y_s, 1), in_line(length(w.height_1y_m, 2), units),
                   in_line(length(plan.waves->working_limit_m, 2), units), percent(w.share_above),
                   fixed(w.at_line_m_s, 2), fixed(w.at_bed_m_s, 2));
}

/// What is put out on the lines: weight, or fronds where the crop is stocked by them.
std::string seed_stock(const Site& site, const Plan& plan) {
  const std::string weight =
      plain_say("site.of_fresh_weight", in_line(crop(site.stocked_t), plan.report.units));
  if (plan.crop.model != GrowthModel::kelp_frond) {
    return plain_say("site.g_per_m", weight, shortest(plan.farm.stocking_g_per_m));
  }
  const double fronds = plan.crop.at("fronds_per_m");
  return plain_say("site.of_seeded_line_fronds_per_m",
                   in_line(length(site.layout.line_m, 0), plan.report.units),
                   count(static_cast<std::size_t>(std::llround(fronds * site.layout.line_m))),
                   shortest(fronds), weight);
}

Rows place_rows(const Site& site, const ReportData& data) {
  const Plan& plan = *data.plan;
  const Units units = plan.report.units;
  const double tide = plan.depth.tidal_range_m;
  Rows rows{
      {label("site.area"), area_sentence(site, units)},
      {label("site.depth_at_low_water"),
       in_line(depths(site.depth_min_m, site.depth_max_m), units) +
           mean_depth(site.depth_mean_m, units) + ", " +
           plain_say("site.datum_of_the_layer", text(plan.depth.datum))},
      {label("site.depth_at_high_water"),
       in_line(depths(site.depth_min_m + tide, site.depth_max_m + tide), units) +
           mean_depth(site.depth_mean_m + tide, units)},
      {label("site.tide"),
       plain_say("site.low_to_high_water_lowest_tide", in_line(length(tide), units),
                 in_line(length(plan.depth.lowest_tide_m), units))},
      {label("site.depths_from"), text(translated(site.depth_source))},
      {label("site.season"), plain_say("site.outplant_last_haul_hauls", date(site.outplant),
                                       date(site.last_haul), site.harvests)},
      {label("site.suitability"),
       plain_say("site.mean_over_the_site_0", fixed(site.suitability, 2))},
      {label("site.limited_by"), text(translated(site.limited_by))},
  };
  if (site.landing_km) {
    rows.push_back(
        {label("site.to_the_landing"),
         plain_say("site.over_water", in_line(distance(*site.landing_km * 1000.0), units))});
  }
  rows.push_back({label("site.current"), current_words(site)});
  rows.push_back({label("site.waves"), site.waves && plan.waves ? wave_words(*site.waves, plan)
                                                                : label("site.no_winds")});
  rows.push_back({label("site.field_checked"), text(field_sentence(site))});
  if (!is_ranked(site)) {
    rows.push_back({label("site.listed_apart"), text(apart_note(site))});
  }
  return rows;
}

Rows layout_rows(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  Rows rows{
      {label("site.longlines"),
       plain_say("site.apart", site.layout.lines, in_line(length(plan.farm.line_gap_m), units))},
      {label("site.grown_one_line"), in_line(length(site.layout.usable_m), units)},
      {label("site.grown_all_lines"), in_line(length(site.layout.line_m, 0), units)},
      {label("site.bundles"),
       plain_say("site.one_every_m", count(static_cast<std::size_t>(site.layout.bundles)),
                 shortest(plan.farm.bundle_m))},
      {label("site.seed_stock"), seed_stock(site, plan)},
      {label("site.margin_to_the_edge"), in_line(length(plan.farm.margin_m), units)},
      {label("site.anchor_leg"),
       plain_say("site.times_the_depth_at_high_water", shortest(plan.farm.scope))},
      {label("site.line_depth"), plan.farm.fixed_line
                                     ? plain_say("site.below_low_water_fixed_to",
                                                 in_line(length(plan.farm.line_depth_m), units))
                                     : plain_say("site.below_the_surface_at_all_tides",
                                                 in_line(length(plan.farm.line_depth_m), units))},
  };
  if (site.own > 0) {
    rows.insert(rows.begin(), {label("site.lies_in"), text(own_layout_sentence(site, units))});
  }
  return rows;
}

std::string figure_table(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  const double per_m = site.layout.line_m > 0.0 ? 1.0 / site.layout.line_m : 0.0;
  const double per_ha = site.area_ha > 0.0 ? 1.0 / site.area_ha : 0.0;
  Table table{label("site.estimate_for_one_season_net"),
              {{""}, {label("site.fresh_yield"), true}, {label("site.nitrogen_carried_off"), true}},
              {},
              ""};
  table.rows = {
      {label("site.per_metre_of_longline"),
       in_line(crop_per_m(1000.0 * site.yield_t * per_m), units),
       in_line(nitrogen_per_m(1000.0 * site.nitrogen_kg * per_m), units)},
      {label("site.whole_site"), in_line(crop(site.yield_t), units),
       in_line(nitrogen(site.nitrogen_kg), units)},
      {label("site.per_hectare_of_site"), in_line(crop_per_ha(site.yield_t * per_ha), units),
       in_line(nitrogen_per_ha(site.nitrogen_kg * per_ha), units)},
  };
  return html(table) + element("p class=\"note\"", text(draw_down_sentence(site, units)) + " " +
                                                       text(neighbour_sentence(site, units)) + " " +
                                                       label("site.an_estimate_not_a_credit"));
}

std::vector<std::string> rule_row(const RuleDistance& near, const Plan& plan) {
  const ClosedPlan& rule = plan.closed.at(static_cast<std::size_t>(near.rule));
  const Units units = plan.report.units;
  return {text(rule.name),
          effect_words(rule),
          in_line(distance(near.setback_m), units),
          in_line(distance(near.distance_m), units),
          bearing(near.bearing_deg),
          rule.rule.empty() ? label("words.no_rule_given") : text(rule.rule)};
}

/// A [[near]] test stands in the same columns: its distance is what a site would keep.
std::vector<std::string> near_row(const ShapesNear& found, const Plan& plan) {
  const NearPlan& test = plan.near.at(static_cast<std::size_t>(found.test));
  const Units units = plan.report.units;
  return {text(test.name),
          found.beyond
              ? plain_say("site.within_the_distance_at_most_caution", found.within, test.count)
              : plain_say("site.within_the_distance_at_most", found.within, test.count),
          in_line(distance(test.distance_m), units),
          found.nearest_m ? in_line(distance(*found.nearest_m), units) : label("site.none_read"),
          found.nearest_m ? bearing(found.bearing_deg) : "",
          test.rule.empty() ? label("words.no_rule_given") : text(test.rule)};
}

std::string rule_table(const Site& site, const Plan& plan) {
  if (site.rules.empty() && site.near.empty()) {
    return element("p class=\"note\"", label("site.the_plan_names_no_closed_area"));
  }
  Table table{label("site.closed_areas_and_cautions_the_nearest"),
              {{label("site.area")},
               {label("site.effect")},
               {label("site.setback_or_distance"), true},
               {label("site.from_the_sites_edge"), true},
               {label("site.true_bearing_from_the_centre"), true},
               {label("site.rule")}},
              {},
              ""};
  for (const RuleDistance& near : site.rules) {
    table.rows.push_back(rule_row(near, plan));
  }
  for (const ShapesNear& found : site.near) {
    table.rows.push_back(near_row(found, plan));
  }
  return html(table);
}

std::string site_cautions(const Site& site) {
  if (site.cautions.empty()) {
    return "";
  }
  std::vector<std::string> items;
  for (const std::string& caution : site.cautions) {
    items.push_back(text(translated(caution)));
  }
  return element("h4", label("site.to_look_at_here")) + list(items);
}

std::string heading_of(const Site& site, std::size_t ranked) {
  if (!is_ranked(site)) {
    return plain_say("site.site_listed_apart", called(site));
  }
  return site.own > 0 ? plain_say("site.own_ranks", called(site), site.rank, ranked)
                      : plain_say("site.site_of", called(site), ranked);
}

std::string heading(const Site& site, const ReportData& data) {
  return element("h3", text(heading_of(site, data.sites->ranked.size())));
}

/// What stands there while the sheet is folded: which site, and what it gives.
std::string folded(const Site& site, const ReportData& data) {
  const Units units = data.plan->report.units;
  return element("summary", heading(site, data) + " " +
                                element("span class=\"brief\"",
                                        say("site.brief", text(in_line(crop(site.yield_t), units)),
                                            text(in_line(nitrogen(site.nitrogen_kg), units)))));
}

/// The rest of the title, with the heading where it is not on the fold.
std::string sheet_title(const Site& site, const ReportData& data, const std::string& heading) {
  const std::string name = plain_name(site);
  return element("div class=\"sheet-head\"",
                 heading + element("p class=\"not-for\"", say("words.not_for")) +
                     fmt::format("<p class=\"links\"><a href=\"#on-map-{}\">{}</a> <a "
                                 "href=\"#top\">{}</a></p>",
                                 name, say("site.on_the_map"), say("site.all_sites")) +
                     drawn_for(data, site.printed.datum));
}

/// What the place is and holds: the first page on paper.
std::string place_page(const Site& site, const ReportData& data) {
  const Plan& plan = *data.plan;
  return element("div class=\"two\"",
                 site_plan(site, data) +
                     element("div", pairs(label("site.the_place"), place_rows(site, data)))) +
         site_corners(site) +
         element("div class=\"two\"",
                 site_sides(site, plan.report.units) +
                     pairs(label("site.the_layout"), layout_rows(site, plan))) +
         figure_table(site, plan);
}

/// A page of its own on paper, with title and cautions; the last one has its cautions on the
/// screen, too.
std::string next_page(const Site& site, const ReportData& data, const std::string& content,
                      bool last) {
  const std::string cautions = cautions_foot();
  const std::string title = sheet_title(site, data, heading(site, data));
  return element("div class=\"next-page\"",
                 for_paper(title) + content + (last ? cautions : for_paper(cautions)));
}

/// What it gives, when, and how sure.
std::string season_page(const Site& site, const Plan& plan) {
  return season_chart(site, plan) + spread_section(site, plan) + harvest_table(site, plan) +
         site_account(site, plan);
}

/// What lies around, and what a meeting asks of it.
std::string around_page(const Site& site, const ReportData& data) {
  return pairs(label("meeting.title"), meeting_questions(site, data)) +
         site_directions(site, data) + rule_table(site, *data.plan) + site_cautions(site);
}

std::string sheet(const Site& site, const ReportData& data) {
  const Plan& plan = *data.plan;
  return element(
      fmt::format("article class=\"site-sheet\" id=\"site-{}\" tabindex=\"-1\"", plain_name(site)),
      element("details open",
              folded(site, data) + sheet_title(site, data, "") + place_page(site, data) +
                  for_paper(cautions_foot()) +
                  next_page(site, data, season_page(site, plan), false) +
                  next_page(site, data, site_choices(site, plan) + data_gaps(site, plan), false) +
                  next_page(site, data, around_page(site, data), true)));
}

}  // namespace

std::string site_sheets(const ReportData& data) {
  std::string all;
  for (const std::vector<Site>* sites : {&data.sites->ranked, &data.sites->apart}) {
    for (const Site& site : *sites) {
      all += sheet(site, data) + "\n";
    }
  }
  return all.empty()
             ? ""
             : element("section id=\"sheets\"", element("h2", label("site.site_sheets")) + all);
}

}  // namespace tidelot::page
