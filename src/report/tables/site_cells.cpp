// SPDX-License-Identifier: Apache-2.0
#include "report/tables/site_cells.hpp"

#include "report/site/site_figures.hpp"
#include "report/tables/csv_cells.hpp"
#include "report/words/spread_words.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot::cells {
namespace {

SiteCell whole(const char* column, std::optional<std::int64_t> value) {
  return {column, CellKind::whole, value ? CellValue(*value) : CellValue()};
}

SiteCell figure(const char* column, std::optional<double> value, int decimals) {
  return {column, CellKind::figure, value ? CellValue(Figure{*value, decimals}) : CellValue()};
}

SiteCell words(const char* column, std::string value) {
  return {column, CellKind::words, CellValue(std::move(value))};
}

SiteCell digits(const char* column, std::string value) {
  return {column, CellKind::digits, CellValue(std::move(value))};
}

/// A figure of what may not be there.
template <typename Whole, typename Base>
std::optional<double> part(const std::optional<Whole>& of, double Base::*which) {
  return of ? std::optional((*of).*which) : std::nullopt;
}

std::optional<double> quantile(const Site& site, Quantiles SiteSpread::*what,
                               double Quantiles::*which) {
  return site.spread ? std::optional(((*site.spread).*what).*which) : std::nullopt;
}

/// Of the ranked sites alone.
std::optional<double> chance(const Site& site, double SiteSpread::*which) {
  return page::is_ranked(site) ? part(site.spread, which) : std::nullopt;
}

std::optional<double> distance_to(const RuleDistance* rule) {
  return rule == nullptr ? std::nullopt : std::optional(rule->distance_m);
}

}  // namespace

std::vector<SiteCell> site_cells(const Site& site, const Plan& plan) {
  const RuleDistance* closed = page::nearest_closed(site, plan);
  return {
      whole("rank", page::is_ranked(site) ? std::optional(site.rank) : std::nullopt),
      words("name", site.name),
      figure("lon", site.centre.lon, 6),
      figure("lat", site.centre.lat, 6),
      figure("area_ha", site.area_ha, 4),
      figure("suitability", site.suitability, 4),
      figure("yield_t", site.yield_t, 4),
      figure("yield_t_p10", quantile(site, &SiteSpread::yield_t, &Quantiles::p10), 4),
      figure("yield_t_p90", quantile(site, &SiteSpread::yield_t, &Quantiles::p90), 4),
      figure("nitrogen_kg", site.nitrogen_kg, 3),
      figure("nitrogen_kg_p10", quantile(site, &SiteSpread::nitrogen_kg, &Quantiles::p10), 3),
      figure("nitrogen_kg_p90", quantile(site, &SiteSpread::nitrogen_kg, &Quantiles::p90), 3),
      figure("depth_min_m", site.depth_min_m, 2),
      figure("depth_max_m", site.depth_max_m, 2),
      digits("outplant", cells::day(site.outplant)),
      digits("last_haul", cells::day(site.last_haul)),
      whole("harvests", site.harvests),
      figure("line_m", site.layout.line_m, 1),
      whole("bundles", site.layout.bundles),
      figure("landing_km", site.landing_km, 3),
      words("nearest_closed", closed == nullptr ? "" : page::rule_name(*closed, plan)),
      figure("nearest_closed_m", distance_to(closed), 1),
      words("cautions", cells::joined(site.cautions)),
      words("limited_by", site.limited_by),
      digits("corners", cells::positions(site.corners)),
      figure("yield_kg_per_m", site.yield_kg_per_m, 4),
      figure("nitrogen_g_per_m", site.nitrogen_g_per_m, 3),
      figure("angle_deg", site.angle_deg, 1),
      figure("length_m", site.size.length_m, 2),
      figure("width_m", site.size.width_m, 2),
      whole("lines", site.layout.lines),
      figure("usable_line_m", site.layout.usable_m, 1),
      figure("unknown_share", site.unknown_share, 3),
      words("apart", page::apart_note(site)),
      words("limits_by_month", site.season ? limits_by_month(site.season->months) : ""),
      words("draw_down", page::draw_down_state(site)),
      figure("yield_without_t", site.yield_without_t, 4),
      figure("nitrogen_without_kg", site.nitrogen_without_kg, 3),
      figure("depth_high_min_m", site.depth_min_m + plan.depth.tidal_range_m, 2),
      figure("depth_high_max_m", site.depth_max_m + plan.depth.tidal_range_m, 2),
      words("depth_datum", plan.depth.datum),
      words("depth_source", site.depth_source),
      figure("yield_with_neighbours_t", part(site.with_neighbours, &WithNeighbours::yield_t), 4),
      figure("nitrogen_with_neighbours_kg",
             part(site.with_neighbours, &WithNeighbours::nitrogen_kg), 3),
      words("neighbours", page::neighbour_names(site)),
      figure("axis_deg", site.axis_deg, 1),
      words("field_checked", page::field_checked(site)),
      whole("field_visits", site.field ? site.field->days : 0),
      words("field_months", page::field_months(site)),
      figure("yield_t_p50", quantile(site, &SiteSpread::yield_t, &Quantiles::p50), 4),
      figure("nitrogen_kg_p50", quantile(site, &SiteSpread::nitrogen_kg, &Quantiles::p50), 3),
      figure("suitability_p10", quantile(site, &SiteSpread::suitability, &Quantiles::p10), 4),
      figure("suitability_p90", quantile(site, &SiteSpread::suitability, &Quantiles::p90), 4),
      figure("chance_best", chance(site, &SiteSpread::best), 3),
      figure("chance_in_three", chance(site, &SiteSpread::in_three), 3),
      figure("chance_lost", part(site.spread, &SiteSpread::lost), 3),
      figure("chance_above_next", chance(site, &SiteSpread::above_next), 3),
      digits("ties_with_next", !site.spread || !page::is_ranked(site) ? ""
                               : site.spread->ties_with_next          ? "yes"
                                                                      : "no"),
      words("measure_first", page::measure_first(site)),
      figure("depth_mean_m", site.depth_mean_m, 2),
      figure("tidal_range_m", plan.depth.tidal_range_m, 2),
      figure("current_m_s", part(site.season, &SiteSeason::current_m_s), 3),
      figure("area_acres", site.area_ha / kAcreHa, 4),
      figure("area_unrounded_ha", site.area_unrounded_ha, 4),
      words("printed_datum", site.printed.datum),
      digits("printed_corners", cells::positions(site.printed.corners)),
      digits("sides_m", cells::side_lengths(site.printed)),
      digits("side_bearings_deg", cells::side_bearings(site.printed)),
      words("utm_zone", site.printed.utm_zone),
      digits("utm_corners", cells::utm(site.printed)),
      figure("shore_m", part(site.shore, &Shore::distance_m), 1),
      figure("shore_bearing_deg", part(site.shore, &Shore::bearing_deg), 1),
      figure("landing_straight_m", part(site.landing, &Direction::distance_m), 1),
      figure("landing_bearing_deg", part(site.landing, &Direction::bearing_deg), 1),
      words("marks", cells::marks(site, plan)),
      words("rules", cells::rules(site, plan)),
      figure("stocked_kg", 1000.0 * site.stocked_t, 2),
      words("harvest_calendar", cells::calendar(site)),
      figure("gear_box_ha", site.gear.box_area_ha, 4),
      words("data_gaps", cells::joined(site.gaps)),
      figure("wave_50y_m", part(site.waves, &PlaceWaves::height_50y_m), 2),
      figure("wave_50y_period_s", part(site.waves, &PlaceWaves::period_50y_s), 1),
      figure("wave_1y_m", part(site.waves, &PlaceWaves::height_1y_m), 2),
      figure("wave_share_above", part(site.waves, &PlaceWaves::share_above), 4),
      figure("wave_line_m_s", part(site.waves, &PlaceWaves::at_line_m_s), 2),
      figure("wave_bed_m_s", part(site.waves, &PlaceWaves::at_bed_m_s), 2),
      figure("score", site.score, 6),
  };
}

}  // namespace tidelot::cells
