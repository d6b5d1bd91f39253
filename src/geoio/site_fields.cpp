// SPDX-License-Identifier: Apache-2.0
#include "site_fields.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include "report/site/site_figures.hpp"
#include "report/tables/csv_cells.hpp"
#include "report/words/spread_words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot::geoio {
namespace {

constexpr std::array kFields{
    SiteField{"rank", OFTInteger64},
    SiteField{"name", OFTString},
    SiteField{"lon", OFTReal},
    SiteField{"lat", OFTReal},
    SiteField{"area_ha", OFTReal},
    SiteField{"suitability", OFTReal},
    SiteField{"yield_t", OFTReal},
    SiteField{"yield_t_p10", OFTReal},
    SiteField{"yield_t_p90", OFTReal},
    SiteField{"nitrogen_kg", OFTReal},
    SiteField{"nitrogen_kg_p10", OFTReal},
    SiteField{"nitrogen_kg_p90", OFTReal},
    SiteField{"depth_min_m", OFTReal},
    SiteField{"depth_max_m", OFTReal},
    SiteField{"outplant", OFTString},
    SiteField{"last_haul", OFTString},
    SiteField{"harvests", OFTInteger64},
    SiteField{"line_m", OFTReal},
    SiteField{"bundles", OFTInteger64},
    SiteField{"landing_km", OFTReal},
    SiteField{"nearest_closed", OFTString},
    SiteField{"nearest_closed_m", OFTReal},
    SiteField{"cautions", OFTString},
    SiteField{"limited_by", OFTString},
    SiteField{"corners", OFTString},
    SiteField{"yield_kg_per_m", OFTReal},
    SiteField{"nitrogen_g_per_m", OFTReal},
    SiteField{"angle_deg", OFTReal},
    SiteField{"length_m", OFTReal},
    SiteField{"width_m", OFTReal},
    SiteField{"lines", OFTInteger64},
    SiteField{"usable_line_m", OFTReal},
    SiteField{"unknown_share", OFTReal},
    SiteField{"apart", OFTString},
    SiteField{"limits_by_month", OFTString},
    SiteField{"draw_down", OFTString},
    SiteField{"yield_without_t", OFTReal},
    SiteField{"nitrogen_without_kg", OFTReal},
    SiteField{"depth_high_min_m", OFTReal},
    SiteField{"depth_high_max_m", OFTReal},
    SiteField{"depth_datum", OFTString},
    SiteField{"depth_source", OFTString},
    SiteField{"yield_with_neighbours_t", OFTReal},
    SiteField{"nitrogen_with_neighbours_kg", OFTReal},
    SiteField{"neighbours", OFTString},
    SiteField{"axis_deg", OFTReal},
    SiteField{"field_checked", OFTString},
    SiteField{"field_visits", OFTInteger64},
    SiteField{"field_months", OFTString},
    SiteField{"yield_t_p50", OFTReal},
    SiteField{"nitrogen_kg_p50", OFTReal},
    SiteField{"suitability_p10", OFTReal},
    SiteField{"suitability_p90", OFTReal},
    SiteField{"chance_best", OFTReal},
    SiteField{"chance_in_three", OFTReal},
    SiteField{"chance_lost", OFTReal},
    SiteField{"chance_above_next", OFTReal},
    SiteField{"ties_with_next", OFTString},
    SiteField{"measure_first", OFTString},
    SiteField{"depth_mean_m", OFTReal},
    SiteField{"tidal_range_m", OFTReal},
    SiteField{"current_m_s", OFTReal},
    SiteField{"area_acres", OFTReal},
    SiteField{"area_unrounded_ha", OFTReal},
    SiteField{"printed_datum", OFTString},
    SiteField{"printed_corners", OFTString},
    SiteField{"sides_m", OFTString},
    SiteField{"side_bearings_deg", OFTString},
    SiteField{"utm_zone", OFTString},
    SiteField{"utm_corners", OFTString},
    SiteField{"shore_m", OFTReal},
    SiteField{"shore_bearing_deg", OFTReal},
    SiteField{"landing_straight_m", OFTReal},
    SiteField{"landing_bearing_deg", OFTReal},
    SiteField{"marks", OFTString},
    SiteField{"rules", OFTString},
    SiteField{"stocked_kg", OFTReal},
    SiteField{"harvest_calendar", OFTString},
    SiteField{"gear_box_ha", OFTReal},
    SiteField{"data_gaps", OFTString},
    SiteField{"wave_50y_m", OFTReal},
    SiteField{"wave_50y_period_s", OFTReal},
    SiteField{"wave_1y_m", OFTReal},
    SiteField{"wave_share_above", OFTReal},
    SiteField{"wave_line_m_s", OFTReal},
    SiteField{"wave_bed_m_s", OFTReal},
};

/// The number that sites.csv prints; NULL where it is not known.
FieldValue figure(std::optional<double> value, int decimals) {
  if (!value || !std::isfinite(*value)) {
    return {};
  }
  const std::string text = fixed(*value, decimals);
  double printed = 0.0;
  std::from_chars(text.data(), text.data() + text.size(), printed);
  return printed;
}

FieldValue words(std::string text) {
  return text.empty() ? FieldValue{} : FieldValue{std::move(text)};
}

FieldValue day(DayOfYear value) { return words(value > 0 ? format_month_day(value) : ""); }

std::optional<double> distance_to(const RuleDistance* rule) {
  return rule == nullptr ? std::nullopt : std::optional(rule->distance_m);
}

std::optional<double> with_neighbours(const Site& site, double WithNeighbours::*measure) {
  return site.with_neighbours ? std::optional((*site.with_neighbours).*measure) : std::nullopt;
}

FieldValue of_spread(const Site& site, Quantiles SiteSpread::*what, double Quantiles::*which,
                     int decimals) {
  return site.spread ? figure(((*site.spread).*what).*which, decimals) : FieldValue{};
}

FieldValue of_waves(const Site& site, double PlaceWaves::*what, int decimals) {
  return site.waves ? figure((*site.waves).*what, decimals) : FieldValue{};
}

FieldValue chance(const Site& site, double SiteSpread::*which) {
  return site.spread && page::is_ranked(site) ? figure((*site.spread).*which, 3) : FieldValue{};
}

}  // namespace

std::span<const SiteField> site_fields() { return kFields; }

std::vector<FieldValue> site_values(const Site& site, const Plan& plan) {
  const RuleDistance* closed = page::nearest_closed(site, plan);
  return {
      page::is_ranked(site) ? FieldValue{std::int64_t{site.rank}} : FieldValue{},
      words(site.name),
      figure(site.centre.lon, 6),
      figure(site.centre.lat, 6),
      figure(site.area_ha, 4),
      figure(site.suitability, 4),
      figure(site.yield_t, 4),
      of_spread(site, &SiteSpread::yield_t, &Quantiles::p10, 4),
      of_spread(site, &SiteSpread::yield_t, &Quantiles::p90, 4),
      figure(site.nitrogen_kg, 3),
      of_spread(site, &SiteSpread::nitrogen_kg, &Quantiles::p10, 3),
      of_spread(site, &SiteSpread::nitrogen_kg, &Quantiles::p90, 3),
      figure(site.depth_min_m, 2),
      figure(site.depth_max_m, 2),
      day(site.outplant),
      day(site.last_haul),
      std::int64_t{site.harvests},
      figure(site.layout.line_m, 1),
      std::int64_t{site.layout.bundles},
      figure(site.landing_km, 3),
      words(closed == nullptr ? "" : page::rule_name(*closed, plan)),
      figure(distance_to(closed), 1),
      words(cells::joined(site.cautions)),
      words(site.limited_by),
      words(cells::positions(site.corners)),
      figure(site.yield_kg_per_m, 4),
      figure(site.nitrogen_g_per_m, 3),
      figure(site.angle_deg, 1),
      figure(site.size.length_m, 2),
      figure(site.size.width_m, 2),
      std::int64_t{site.layout.lines},
      figure(site.layout.usable_m, 1),
      figure(site.unknown_share, 3),
      words(page::apart_note(site)),
      words(site.season ? limits_by_month(site.season->months) : ""),
      words(page::draw_down_state(site)),
      figure(site.yield_without_t, 4),
      figure(site.nitrogen_without_kg, 3),
      figure(site.depth_min_m + plan.depth.tidal_range_m, 2),
      figure(site.depth_max_m + plan.depth.tidal_range_m, 2),
      words(plan.depth.datum),
      words(site.depth_source),
      figure(with_neighbours(site, &WithNeighbours::yield_t), 4),
      figure(with_neighbours(site, &WithNeighbours::nitrogen_kg), 3),
      words(page::neighbour_names(site)),
      figure(site.axis_deg, 1),
      words(page::field_checked(site)),
      std::int64_t{site.field ? site.field->days : 0},
      words(page::field_months(site)),
      of_spread(site, &SiteSpread::yield_t, &Quantiles::p50, 4),
      of_spread(site, &SiteSpread::nitrogen_kg, &Quantiles::p50, 3),
      of_spread(site, &SiteSpread::suitability, &Quantiles::p10, 4),
      of_spread(site, &SiteSpread::suitability, &Quantiles::p90, 4),
      chance(site, &SiteSpread::best),
      chance(site, &SiteSpread::in_three),
      site.spread ? figure(site.spread->lost, 3) : FieldValue{},
      chance(site, &SiteSpread::above_next),
      site.spread && page::is_ranked(site) ? words(site.spread->ties_with_next ? "yes" : "no")
                                           : FieldValue{},
      words(page::measure_first(site)),
      figure(site.depth_mean_m, 2),
      figure(plan.depth.tidal_range_m, 2),
      site.season ? figure(site.season->current_m_s, 3) : FieldValue{},
      figure(site.area_ha / kAcreHa, 4),
      figure(site.area_unrounded_ha, 4),
      words(site.printed.datum),
      words(cells::positions(site.printed.corners)),
      words(cells::side_lengths(site.printed)),
      words(cells::side_bearings(site.printed)),
      words(site.printed.utm_zone),
      words(cells::utm(site.printed)),
      site.shore ? figure(site.shore->distance_m, 1) : FieldValue{},
      site.shore ? figure(site.shore->bearing_deg, 1) : FieldValue{},
      site.landing ? figure(site.landing->distance_m, 1) : FieldValue{},
      site.landing ? figure(site.landing->bearing_deg, 1) : FieldValue{},
      words(cells::marks(site, plan)),
      words(cells::rules(site, plan)),
      figure(1000.0 * site.stocked_t, 2),
      words(cells::calendar(site)),
      figure(site.gear.box_area_ha, 4),
      words(cells::joined(site.gaps)),
      of_waves(site, &PlaceWaves::height_50y_m, 2),
      of_waves(site, &PlaceWaves::period_50y_s, 1),
      of_waves(site, &PlaceWaves::height_1y_m, 2),
      of_waves(site, &PlaceWaves::share_above, 4),
      of_waves(site, &PlaceWaves::at_line_m_s, 2),
      of_waves(site, &PlaceWaves::at_bed_m_s, 2),
  };
}

}  // namespace tidelot::geoio
