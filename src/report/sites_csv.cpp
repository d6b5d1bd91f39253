// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <string>
#include <vector>

#include "report/site_figures.hpp"
#include "report/spread_words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot {
namespace {

constexpr std::string_view kHeader =
    "rank,name,lon,lat,area_ha,suitability,yield_t,yield_t_p10,yield_t_p90,nitrogen_kg,"
    "nitrogen_kg_p10,nitrogen_kg_p90,depth_min_m,depth_max_m,outplant,last_haul,harvests,line_m,"
    "bundles,landing_km,nearest_closed,nearest_closed_m,cautions,limited_by,corners,"
    "yield_kg_per_m,nitrogen_g_per_m,angle_deg,length_m,width_m,lines,usable_line_m,"
    "unknown_share,apart,limits_by_month,draw_down,yield_without_t,nitrogen_without_kg,"
    "depth_high_min_m,depth_high_max_m,depth_datum,depth_source,"
    "yield_with_neighbours_t,nitrogen_with_neighbours_kg,neighbours,axis_deg,"
    "field_checked,field_visits,field_months,"
    "yield_t_p50,nitrogen_kg_p50,suitability_p10,suitability_p90,chance_best,chance_in_three,"
    "chance_lost,chance_above_next,ties_with_next,measure_first\n";

/// A text cell: RFC 4180 quotes; an apostrophe before what a spreadsheet would take for a formula
/// (OWASP, CSV injection).
std::string text_cell(const std::string& raw) {
  constexpr std::string_view kFormulaStarts = "=+-@\t\r";
  const bool risky = !raw.empty() && kFormulaStarts.find(raw.front()) != std::string_view::npos;
  const std::string safe = risky ? "'" + raw : raw;
  if (safe.find_first_of(",\"\r\n") == std::string::npos) {
    return safe;
  }
  std::string quoted = "\"";
  for (const char c : safe) {
    quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  }
  return quoted + '"';
}

/// An unknown number is an empty cell.
std::string number(double value, int decimals) {
  return value == value ? fixed(value, decimals) : "";
}

std::string day_cell(DayOfYear day) { return day > 0 ? format_month_day(day) : ""; }

std::string corners_cell(const Site& site) {
  std::string all;
  for (const LonLat& corner : site.corners) {
    all +=
        fmt::format("{}{} {}", all.empty() ? "" : ";", fixed(corner.lon, 6), fixed(corner.lat, 6));
  }
  return all;
}

std::string joined(const std::vector<std::string>& phrases) {
  return fmt::format("{}", fmt::join(phrases, "; "));
}

/// Empty without members.
std::string of_spread(const Site& site, Quantiles SiteSpread::*what, double Quantiles::*which,
                      int decimals) {
  return site.spread ? number(((*site.spread).*what).*which, decimals) : "";
}

/// Of the ranked sites alone.
std::string chance(const Site& site, double SiteSpread::*which) {
  return site.spread && page::is_ranked(site) ? number((*site.spread).*which, 3) : "";
}

std::vector<std::string> cells(const Site& site, const Plan& plan) {
  const RuleDistance* closed = page::nearest_closed(site, plan);
  return {
      page::is_ranked(site) ? fmt::format("{}", site.rank) : "",
      text_cell(site.name),
      fixed(site.centre.lon, 6),
      fixed(site.centre.lat, 6),
      number(site.area_ha, 4),
      number(site.suitability, 4),
      number(site.yield_t, 4),
      of_spread(site, &SiteSpread::yield_t, &Quantiles::p10, 4),
      of_spread(site, &SiteSpread::yield_t, &Quantiles::p90, 4),
      number(site.nitrogen_kg, 3),
      of_spread(site, &SiteSpread::nitrogen_kg, &Quantiles::p10, 3),
      of_spread(site, &SiteSpread::nitrogen_kg, &Quantiles::p90, 3),
      number(site.depth_min_m, 2),
      number(site.depth_max_m, 2),
      day_cell(site.outplant),
      day_cell(site.last_haul),
      fmt::format("{}", site.harvests),
      number(site.layout.line_m, 1),
      fmt::format("{}", site.layout.bundles),
      site.landing_km ? number(*site.landing_km, 3) : "",
      closed == nullptr ? "" : text_cell(page::rule_name(*closed, plan)),
      closed == nullptr ? "" : number(closed->distance_m, 1),
      text_cell(joined(site.cautions)),
      text_cell(site.limited_by),
      corners_cell(site),
      number(site.yield_kg_per_m, 4),
      number(site.nitrogen_g_per_m, 3),
      number(site.angle_deg, 1),
      number(site.size.length_m, 2),
      number(site.size.width_m, 2),
      fmt::format("{}", site.layout.lines),
      number(site.layout.usable_m, 1),
      number(site.unknown_share, 3),
      text_cell(page::apart_note(site)),
      text_cell(site.season ? limits_by_month(site.season->months) : ""),
      text_cell(page::draw_down_state(site)),
      number(site.yield_without_t, 4),
      number(site.nitrogen_without_kg, 3),
      number(site.depth_min_m + plan.depth.tidal_range_m, 2),
      number(site.depth_max_m + plan.depth.tidal_range_m, 2),
      text_cell(plan.depth.datum),
      text_cell(site.depth_source),
      site.with_neighbours ? number(site.with_neighbours->yield_t, 4) : "",
      site.with_neighbours ? number(site.with_neighbours->nitrogen_kg, 3) : "",
      text_cell(page::neighbour_names(site)),
      site.axis_deg ? number(*site.axis_deg, 1) : "",
      text_cell(page::field_checked(site)),
      fmt::format("{}", site.field ? site.field->days : 0),
      text_cell(page::field_months(site)),
      of_spread(site, &SiteSpread::yield_t, &Quantiles::p50, 4),
      of_spread(site, &SiteSpread::nitrogen_kg, &Quantiles::p50, 3),
      of_spread(site, &SiteSpread::suitability, &Quantiles::p10, 4),
      of_spread(site, &SiteSpread::suitability, &Quantiles::p90, 4),
      chance(site, &SiteSpread::best),
      chance(site, &SiteSpread::in_three),
      site.spread ? number(site.spread->lost, 3) : "",
      chance(site, &SiteSpread::above_next),
      site.spread && page::is_ranked(site) ? (site.spread->ties_with_next ? "yes" : "no") : "",
      text_cell(page::measure_first(site)),
  };
}

}  // namespace

std::string sites_csv(std::span<const Site> sites, const Plan& plan) {
  std::string all(kHeader);
  for (const Site& site : sites) {
    all += fmt::format("{}\n", fmt::join(cells(site, plan), ","));
  }
  return all;
}

}  // namespace tidelot
