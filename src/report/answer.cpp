// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "report/html.hpp"
#include "report/parts.hpp"
#include "report/site_figures.hpp"
#include "report/spread_words.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/reason.hpp"

namespace tidelot::page {
namespace {

std::string water_share(const RunCounts& counts) {
  const double share = counts.water_ha > 0.0 ? counts.closed_ha / counts.water_ha : 0.0;
  return percent(share);
}

std::string wanted(const Plan& plan) {
  return fmt::format("a {} of {}", plan.sites.line ? "single longline" : "longline site",
                     in_line(area(plan.sites.area_ha), plan.report.units));
}

std::string places(std::size_t number) {
  return fmt::format("{} {}", number, number == 1 ? "place was" : "places were");
}

std::string how_sure(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  return site.spread ? fmt::format(". Eight in ten of the members computed carry between {} and {}",
                                   in_line(nitrogen(site.spread->nitrogen_kg.p10), units),
                                   in_line(nitrogen(site.spread->nitrogen_kg.p90), units))
                     : ", and no spread is given in this run";
}

std::string first_choice(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  return fmt::format(
      "The first choice is <a href=\"#site-{}\">site {}</a>, at {}. In a season from {} it is "
      "estimated to give <b>{}</b> of fresh seaweed and to carry <b>{}</b> of nitrogen out of the "
      "water in {} {}: an estimate, not a credit{}. {}",
      plain_name(site, 0), site.rank, decimal_minutes(site.centre),
      dates(site.outplant, site.last_haul), in_line(crop(site.yield_t), units),
      in_line(nitrogen(site.nitrogen_kg), units), site.harvests,
      site.harvests == 1 ? "harvest" : "harvests", how_sure(site, plan),
      text(draw_down_sentence(site, units)));
}

std::string water_sentence(const ReportData& data) {
  const Units units = data.plan->report.units;
  return fmt::format("Of {} of water, {} is closed; {} is open and was scored.",
                     in_line(area(data.counts.water_ha), units), water_share(data.counts),
                     in_line(area(data.counts.open_ha), units));
}

/// The reason that most cells have, from `first` on; -1 when there is none.
int most_frequent(const std::vector<std::size_t>& counts, std::size_t first) {
  if (counts.size() <= first) {
    return -1;
  }
  const auto most =
      std::max_element(counts.begin() + static_cast<std::ptrdiff_t>(first), counts.end());
  return *most == 0 ? -1 : static_cast<int>(most - counts.begin());
}

std::string main_reason(const ReportData& data) {
  const int code = most_frequent(data.counts.by_reason, reason::kNothing + 1);
  if (code < 0 || static_cast<std::size_t>(code) >= data.reason_names.size()) {
    return "";
  }
  return " What closed or held back most of it: " +
         text(data.reason_names[static_cast<std::size_t>(code)]) + ".";
}

std::string none_found(const ReportData& data) {
  std::vector<std::string> notes;
  for (const std::string& note : data.sites->notes) {
    notes.push_back(text(note));
  }
  return element("p class=\"answer\"",
                 fmt::format("<b>No place for {} was found.</b> {}{}", wanted(*data.plan),
                             water_sentence(data), main_reason(data))) +
         (notes.empty() ? "" : list(notes));
}

std::vector<Column> site_columns() {
  return {{"Rank", false},          {"Where (centre)", false},
          {"Area", true},           {"Suitability", true},
          {"Yield", true},          {"Nitrogen", true},
          {"P10 to P90", true},     {"Depth, low water", true},
          {"Season", false},        {"Longline", true},
          {"To the landing", true}, {"Nearest closed area", false},
          {"Limited by", false}};
}

std::string closed_cell(const Site& site, const Plan& plan) {
  const RuleDistance* rule = nearest_closed(site, plan);
  return rule == nullptr ? "none in the plan"
                         : text(rule_name(*rule, plan)) +
                               element("span class=\"other\"",
                                       in_line(distance(rule->distance_m), plan.report.units));
}

std::string rank_cell(const Site& site, std::size_t index) {
  const std::string name = plain_name(site, index);
  return fmt::format(
      "<a class=\"to-sheet\" href=\"#site-{0}\">{1}</a> <a class=\"to-map\" "
      "href=\"#on-map-{0}\" aria-label=\"Site {1} on the map\">map</a>",
      name, is_ranked(site) ? fmt::format("{}", site.rank) : fmt::format("A{}", index + 1));
}

std::vector<std::string> site_row(const Site& site, std::size_t index, const Plan& plan) {
  const Units units = plan.report.units;
  return {
      rank_cell(site, index),
      decimal_minutes(site.centre.lat, "NS", 3) +
          element("span class=\"other\"", decimal_minutes(site.centre.lon, "EW", 3)),
      stacked(area(site.area_ha), units),
      fixed(site.suitability, 2),
      stacked(crop(site.yield_t), units),
      stacked(nitrogen(site.nitrogen_kg), units),
      nitrogen_range_cell(site, units),
      stacked(depths(site.depth_min_m, site.depth_max_m), units),
      date(site.outplant) + element("span class=\"other\"", "to " + date(site.last_haul)),
      stacked(length(site.layout.line_m, 0), units),
      site.landing_km ? stacked(distance(*site.landing_km * 1000.0), units) : "no landing given",
      closed_cell(site, plan),
      text(site.limited_by)};
}

std::string site_table(const std::vector<Site>& sites, const std::string& caption,
                       const Plan& plan) {
  Table table{caption, site_columns(), {}, "sites"};
  for (std::size_t i = 0; i < sites.size(); ++i) {
    table.rows.push_back(site_row(sites[i], i, plan));
  }
  return html(table);
}

}  // namespace

std::string answer(const ReportData& data) {
  const std::vector<Site>& sites = data.sites->ranked;
  if (sites.empty()) {
    return none_found(data);
  }
  std::vector<std::string> notes;
  for (const std::string& note : data.sites->notes) {
    notes.push_back(text(note));
  }
  return element(
             "p class=\"answer\"",
             fmt::format("<b>{} found for {}.</b> {} {}", places(sites.size()), wanted(*data.plan),
                         first_choice(sites.front(), *data.plan), water_sentence(data))) +
         (notes.empty() ? "" : list(notes));
}

std::string site_tables(const ReportData& data) {
  std::string all;
  if (!data.sites->ranked.empty()) {
    all += site_table(data.sites->ranked, "The sites, the best first", *data.plan);
    all += element("p class=\"note\"",
                   "Yield is fresh weight and, like nitrogen, for the whole site and one season, "
                   "net of the stocking, " +
                       draw_down_of_all(data.sites->ranked) + ", each as if alone. " +
                       text(together_sentence(data.sites->ranked, data.plan->report.units)) + " " +
                       text(spread_basis(*data.plan)) + ". Depth is from the layer's datum (" +
                       text(data.plan->depth.datum) + "). Positions: WGS 84.");
  }
  if (!data.sites->apart.empty()) {
    all +=
        site_table(data.sites->apart,
                   "Listed apart: something that the ranking needs is not known there", *data.plan);
  }
  return all;
}

}  // namespace tidelot::page
