// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <string>
#include <vector>

#include "report/site/site_figures.hpp"
#include "report/tables/csv_cells.hpp"
#include "report/words/spread_words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/report/report.hpp"
#include "tidelot/sites/accounting.hpp"

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
    "chance_lost,chance_above_next,ties_with_next,measure_first,"
    "depth_mean_m,tidal_range_m,current_m_s,area_acres,area_unrounded_ha,printed_datum,"
    "printed_corners,sides_m,side_bearings_deg,utm_zone,utm_corners,shore_m,shore_bearing_deg,"
    "landing_straight_m,landing_bearing_deg,marks,rules,stocked_kg,harvest_calendar,gear_box_ha,"
    "data_gaps,wave_50y_m,wave_50y_period_s,wave_1y_m,wave_share_above,wave_line_m_s,wave_bed_m_"
    "s\n";

using cells::number;

/// Empty without members.
std::string of_spread(const Site& site, Quantiles SiteSpread::*what, double Quantiles::*which,
                      int decimals) {
  return site.spread ? number(((*site.spread).*what).*which, decimals) : "";
}

/// Of the ranked sites alone.
std::string of_waves(const Site& site, double PlaceWaves::*what, int decimals) {
  return site.waves ? number((*site.waves).*what, decimals) : "";
}

std::string chance(const Site& site, double SiteSpread::*which) {
  return site.spread && page::is_ranked(site) ? number((*site.spread).*which, 3) : "";
}

std::vector<std::string> row(const Site& site, const Plan& plan) {
  const RuleDistance* closed = page::nearest_closed(site, plan);
  return {
      page::is_ranked(site) ? fmt::format("{}", site.rank) : "",
      cells::text(site.name),
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
      cells::day(site.outplant),
      cells::day(site.last_haul),
      fmt::format("{}", site.harvests),
      number(site.layout.line_m, 1),
      fmt::format("{}", site.layout.bundles),
      site.landing_km ? number(*site.landing_km, 3) : "",
      closed == nullptr ? "" : cells::text(page::rule_name(*closed, plan)),
      closed == nullptr ? "" : number(closed->distance_m, 1),
      cells::text(cells::joined(site.cautions)),
      cells::text(site.limited_by),
      cells::positions(site.corners),
      number(site.yield_kg_per_m, 4),
      number(site.nitrogen_g_per_m, 3),
      number(site.angle_deg, 1),
      number(site.size.length_m, 2),
      number(site.size.width_m, 2),
      fmt::format("{}", site.layout.lines),
      number(site.layout.usable_m, 1),
      number(site.unknown_share, 3),
      cells::text(page::apart_note(site)),
      cells::text(site.season ? limits_by_month(site.season->months) : ""),
      cells::text(page::draw_down_state(site)),
      number(site.yield_without_t, 4),
      number(site.nitrogen_without_kg, 3),
      number(site.depth_min_m + plan.depth.tidal_range_m, 2),
      number(site.depth_max_m + plan.depth.tidal_range_m, 2),
      cells::text(plan.depth.datum),
      cells::text(site.depth_source),
      site.with_neighbours ? number(site.with_neighbours->yield_t, 4) : "",
      site.with_neighbours ? number(site.with_neighbours->nitrogen_kg, 3) : "",
      cells::text(page::neighbour_names(site)),
      site.axis_deg ? number(*site.axis_deg, 1) : "",
      cells::text(page::field_checked(site)),
      fmt::format("{}", site.field ? site.field->days : 0),
      cells::text(page::field_months(site)),
      of_spread(site, &SiteSpread::yield_t, &Quantiles::p50, 4),
      of_spread(site, &SiteSpread::nitrogen_kg, &Quantiles::p50, 3),
      of_spread(site, &SiteSpread::suitability, &Quantiles::p10, 4),
      of_spread(site, &SiteSpread::suitability, &Quantiles::p90, 4),
      chance(site, &SiteSpread::best),
      chance(site, &SiteSpread::in_three),
      site.spread ? number(site.spread->lost, 3) : "",
      chance(site, &SiteSpread::above_next),
      site.spread && page::is_ranked(site) ? (site.spread->ties_with_next ? "yes" : "no") : "",
      cells::text(page::measure_first(site)),
      number(site.depth_mean_m, 2),
      number(plan.depth.tidal_range_m, 2),
      site.season ? number(site.season->current_m_s, 3) : "",
      number(site.area_ha / kAcreHa, 4),
      number(site.area_unrounded_ha, 4),
      cells::text(site.printed.datum),
      cells::positions(site.printed.corners),
      cells::side_lengths(site.printed),
      cells::side_bearings(site.printed),
      cells::text(site.printed.utm_zone),
      cells::utm(site.printed),
      site.shore ? number(site.shore->distance_m, 1) : "",
      site.shore ? number(site.shore->bearing_deg, 1) : "",
      site.landing ? number(site.landing->distance_m, 1) : "",
      site.landing ? number(site.landing->bearing_deg, 1) : "",
      cells::text(cells::marks(site, plan)),
      cells::text(cells::rules(site, plan)),
      number(1000.0 * site.stocked_t, 2),
      cells::text(cells::calendar(site)),
      number(site.gear.box_area_ha, 4),
      cells::text(cells::joined(site.gaps)),
      of_waves(site, &PlaceWaves::height_50y_m, 2),
      of_waves(site, &PlaceWaves::period_50y_s, 1),
      of_waves(site, &PlaceWaves::height_1y_m, 2),
      of_waves(site, &PlaceWaves::share_above, 4),
      of_waves(site, &PlaceWaves::at_line_m_s, 2),
      of_waves(site, &PlaceWaves::at_bed_m_s, 2),
  };
}

}  // namespace

std::string sites_csv(std::span<const Site> sites, const Plan& plan) {
  std::string all(kHeader);
  for (const Site& site : sites) {
    all += fmt::format("{}\n", fmt::join(row(site, plan), ","));
  }
  return all;
}

}  // namespace tidelot
