// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "report/html.hpp"
#include "report/parts.hpp"
#include "report/site_figures.hpp"
#include "report/spread_words.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

using Rows = std::vector<std::pair<std::string, std::string>>;

std::string mean_depth(double m, Units units) {
  return std::isnan(m) ? "" : ", mean " + in_line(length(m), units);
}

std::string current_words(const Site& site) {
  const std::string speed = site.season ? fmt::format("{} m/s, mean over the season at the centre",
                                                      fixed(site.season->current_m_s, 2))
                                        : std::string("not known at the centre");
  return speed + (site.axis_deg
                      ? fmt::format("; runs along {}° from true north, to and fro (mean over the "
                                    "site)",
                                    fixed(*site.axis_deg, 0))
                      : "; nothing says which way it runs");
}

/// At the most exposed cell.
std::string wave_words(const PlaceWaves& w, const Plan& plan) {
  const Units units = plan.report.units;
  return fmt::format(
      "significant height once in fifty years {}, period {} s; once a year {}; above {} for {} of "
      "the time. In the highest, at high water, the water moves {} m/s at the line and {} m/s at "
      "the bed. Of the wind alone, at the most exposed place of the site",
      in_line(length(w.height_50y_m, 2), units), fixed(w.period_50y_s, 1),
      in_line(length(w.height_1y_m, 2), units),
      in_line(length(plan.waves->working_limit_m, 2), units), percent(w.share_above),
      fixed(w.at_line_m_s, 2), fixed(w.at_bed_m_s, 2));
}

/// What is put out on the lines: weight, or fronds where the crop is stocked by them.
std::string seed_stock(const Site& site, const Plan& plan) {
  const std::string weight = in_line(crop(site.stocked_t), plan.report.units) + " of fresh weight";
  if (plan.crop.model != GrowthModel::kelp_frond) {
    return fmt::format("{}, {} g per m", weight, shortest(plan.farm.stocking_g_per_m));
  }
  const double fronds = plan.crop.at("fronds_per_m");
  return fmt::format("{} of seeded line, {} fronds ({} per m), {}",
                     in_line(length(site.layout.line_m, 0), plan.report.units),
                     count(static_cast<std::size_t>(std::llround(fronds * site.layout.line_m))),
                     shortest(fronds), weight);
}

Rows place_rows(const Site& site, const ReportData& data) {
  const Plan& plan = *data.plan;
  const Units units = plan.report.units;
  const double tide = plan.depth.tidal_range_m;
  Rows rows{
      {"Area", area_sentence(site, units)},
      {"Depth at low water", in_line(depths(site.depth_min_m, site.depth_max_m), units) +
                                 mean_depth(site.depth_mean_m, units) +
                                 ", datum of the layer: " + text(plan.depth.datum)},
      {"Depth at high water",
       in_line(depths(site.depth_min_m + tide, site.depth_max_m + tide), units) +
           mean_depth(site.depth_mean_m + tide, units)},
      {"Tide",
       fmt::format("low to high water {}; lowest tide {} from low water",
                   in_line(length(tide), units), in_line(length(plan.depth.lowest_tide_m), units))},
      {"Depths from", text(site.depth_source)},
      {"Season", fmt::format("outplant {}, last haul {}, {} hauls", date(site.outplant),
                             date(site.last_haul), site.harvests)},
      {"Suitability", fixed(site.suitability, 2) + " (mean over the site, 0 to 1)"},
      {"Limited by", text(site.limited_by)},
  };
  if (site.landing_km) {
    rows.push_back(
        {"To the landing", in_line(distance(*site.landing_km * 1000.0), units) + " over water"});
  }
  rows.push_back({"Current", current_words(site)});
  rows.push_back({"Waves", site.waves && plan.waves ? wave_words(*site.waves, plan)
                                                    : "not known: the plan gives no winds"});
  rows.push_back({"Field-checked", text(field_sentence(site))});
  if (!is_ranked(site)) {
    rows.push_back({"Listed apart", text(apart_note(site))});
  }
  return rows;
}

Rows layout_rows(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  return {
      {"Longlines", fmt::format("{}, {} apart", site.layout.lines,
                                in_line(length(plan.farm.line_gap_m), units))},
      {"Grown, one line", in_line(length(site.layout.usable_m), units)},
      {"Grown, all lines", in_line(length(site.layout.line_m, 0), units)},
      {"Bundles", count(static_cast<std::size_t>(site.layout.bundles)) +
                      fmt::format(", one every {} m", shortest(plan.farm.bundle_m))},
      {"Seed stock", seed_stock(site, plan)},
      {"Margin to the edge", in_line(length(plan.farm.margin_m), units)},
      {"Anchor leg",
       fmt::format("{} times the depth at high water, each end", shortest(plan.farm.scope))},
      {"Line depth", in_line(length(plan.farm.line_depth_m), units) +
                         (plan.farm.fixed_line ? " below low water, fixed to the bed"
                                               : " below the surface at all tides")},
  };
}

std::string figure_table(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  const double per_m = site.layout.line_m > 0.0 ? 1.0 / site.layout.line_m : 0.0;
  const double per_ha = site.area_ha > 0.0 ? 1.0 / site.area_ha : 0.0;
  Table table{"Estimate for one season, net of the stocking",
              {{""}, {"Fresh yield", true}, {"Nitrogen carried off", true}},
              {},
              ""};
  table.rows = {
      {"Per metre of longline", in_line(crop_per_m(1000.0 * site.yield_t * per_m), units),
       in_line(nitrogen_per_m(1000.0 * site.nitrogen_kg * per_m), units)},
      {"Whole site", in_line(crop(site.yield_t), units),
       in_line(nitrogen(site.nitrogen_kg), units)},
      {"Per hectare of site", in_line(crop_per_ha(site.yield_t * per_ha), units),
       in_line(nitrogen_per_ha(site.nitrogen_kg * per_ha), units)},
  };
  return html(table) +
         element("p class=\"note\"",
                 text(draw_down_sentence(site, units)) + " " +
                     text(neighbour_sentence(site, units)) +
                     " An estimate, not a credit. The site's figures are its metres of line times "
                     "the mean "
                     "per metre: the map's mean times the area would be another figure.");
}

std::vector<std::string> rule_row(const RuleDistance& near, const Plan& plan) {
  const ClosedPlan& rule = plan.closed.at(static_cast<std::size_t>(near.rule));
  const Units units = plan.report.units;
  return {text(rule.name),
          effect_words(rule),
          in_line(distance(near.setback_m), units),
          in_line(distance(near.distance_m), units),
          bearing(near.bearing_deg),
          rule.rule.empty() ? "no rule given" : text(rule.rule)};
}

/// A [[near]] test stands in the same columns: its distance is what a site would keep.
std::vector<std::string> near_row(const ShapesNear& found, const Plan& plan) {
  const NearPlan& test = plan.near.at(static_cast<std::size_t>(found.test));
  const Units units = plan.report.units;
  return {text(test.name),
          fmt::format("{} within the distance, at most {}{}", found.within, test.count,
                      found.beyond ? ": caution" : ""),
          in_line(distance(test.distance_m), units),
          found.nearest_m ? in_line(distance(*found.nearest_m), units) : "none read",
          found.nearest_m ? bearing(found.bearing_deg) : "",
          test.rule.empty() ? "no rule given" : text(test.rule)};
}

std::string rule_table(const Site& site, const Plan& plan) {
  if (site.rules.empty() && site.near.empty()) {
    return element("p class=\"note\"", "The plan names no closed area.");
  }
  Table table{"Closed areas and cautions, the nearest first",
              {{"Area"},
               {"Effect"},
               {"Setback or distance", true},
               {"From the site's edge", true},
               {"True bearing from the centre", true},
               {"Rule"}},
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
    items.push_back(text(caution));
  }
  return element("h4", "To look at here") + list(items);
}

std::string sheet_title(const Site& site, std::size_t index, const ReportData& data) {
  const std::string name = plain_name(site, index);
  const std::string heading =
      is_ranked(site) ? fmt::format("Site {} of {}", site.rank, data.sites->ranked.size())
                      : fmt::format("Site {}, listed apart", name);
  return element("div class=\"sheet-head\"",
                 element("h3", text(heading)) +
                     fmt::format("<p class=\"not-for\">Planning use &ndash; not for navigation "
                                 "&ndash; not a survey</p><p class=\"links\"><a "
                                 "href=\"#on-map-{}\">On the map</a> <a href=\"#top\">All "
                                 "sites</a></p>",
                                 name) +
                     drawn_for(data, site.printed.datum));
}

/// What the place is and holds: the first page on paper.
std::string place_page(const Site& site, const ReportData& data) {
  const Plan& plan = *data.plan;
  return element(
             "div class=\"two\"",
             site_plan(site, data) + element("div", pairs("The place", place_rows(site, data)))) +
         site_corners(site) +
         element("div class=\"two\"", site_sides(site, plan.report.units) +
                                          pairs("The layout", layout_rows(site, plan))) +
         figure_table(site, plan);
}

/// A page of its own on paper, with title and cautions; the last one has its cautions on the
/// screen, too.
std::string next_page(const Site& site, std::size_t index, const ReportData& data,
                      const std::string& content, bool last) {
  const std::string cautions = cautions_foot();
  return element("div class=\"next-page\"", for_paper(sheet_title(site, index, data)) + content +
                                                (last ? cautions : for_paper(cautions)));
}

/// What it gives, when, and how sure.
std::string season_page(const Site& site, const Plan& plan) {
  return season_chart(site, plan) + spread_section(site, plan) + harvest_table(site, plan) +
         site_account(site, plan);
}

/// What else could be done there, and what lies around.
std::string around_page(const Site& site, const ReportData& data) {
  const Plan& plan = *data.plan;
  return site_choices(site, plan) + site_directions(site, data) + rule_table(site, plan) +
         site_cautions(site) + data_gaps(site, plan);
}

std::string sheet(const Site& site, std::size_t index, const ReportData& data) {
  return element(fmt::format("article class=\"site-sheet\" id=\"site-{}\" tabindex=\"-1\"",
                             plain_name(site, index)),
                 sheet_title(site, index, data) + place_page(site, data) +
                     for_paper(cautions_foot()) +
                     next_page(site, index, data, season_page(site, *data.plan), false) +
                     next_page(site, index, data, around_page(site, data), true));
}

}  // namespace

std::string site_sheets(const ReportData& data) {
  std::string all;
  for (const std::vector<Site>* sites : {&data.sites->ranked, &data.sites->apart}) {
    for (std::size_t i = 0; i < sites->size(); ++i) {
      all += sheet((*sites)[i], i, data) + "\n";
    }
  }
  return all.empty() ? "" : element("section id=\"sheets\"", element("h2", "Site sheets") + all);
}

}  // namespace tidelot::page
