// SPDX-License-Identifier: Apache-2.0
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "report/site/site_figures.hpp"
#include "report/tables/near_json.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/report/report.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value, int decimals) {
  if (!std::isfinite(value)) {
    return nullptr;
  }
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}

Json day(DayOfYear day_of_year) {
  return day_of_year > 0 ? Json(format_month_day(day_of_year)) : Json();
}

Json position(LonLat place) { return Json::array({number(place.lon, 6), number(place.lat, 6)}); }

/// Twice the signed area in degrees: above 0 when counter-clockwise.
double turning(const std::array<LonLat, 4>& ring) {
  double sum = 0.0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const LonLat a = ring[i];
    const LonLat b = ring[(i + 1) % ring.size()];
    sum += (a.lon - ring[0].lon) * (b.lat - ring[0].lat) -
           (b.lon - ring[0].lon) * (a.lat - ring[0].lat);
  }
  return sum;
}

/// The right-hand rule: an outer ring runs counter-clockwise (RFC 7946, 3.1.6). It starts and ends
/// at the first corner.
Json polygon(const std::array<LonLat, 4>& corners) {
  const bool forward = turning(corners) > 0.0;
  Json ring = Json::array();
  for (std::size_t i = 0; i <= corners.size(); ++i) {
    const std::size_t step = i % corners.size();
    ring.push_back(position(corners[forward ? step : (corners.size() - step) % corners.size()]));
  }
  return {{"type", "Polygon"}, {"coordinates", Json::array({ring})}};
}

Json rules(const Site& site, const Plan& plan) {
  Json all = Json::array();
  for (const RuleDistance& rule : site.rules) {
    const ClosedPlan& closed = plan.closed.at(static_cast<std::size_t>(rule.rule));
    all.push_back({{"name", closed.name},
                   {"effect", closed.caution ? "caution" : "close"},
                   {"applies", closed.applies},
                   {"setback_m", rule.setback_m},
                   {"distance_m", number(rule.distance_m, 1)},
                   {"bearing_deg", number(rule.bearing_deg, 1)}});
  }
  return all;
}

Json of_waves(const Site& site, double PlaceWaves::*what, int decimals) {
  return site.waves ? number((*site.waves).*what, decimals) : Json();
}

/// null without members.
Json of_spread(const Site& site, Quantiles SiteSpread::*what, double Quantiles::*which,
               int decimals) {
  return site.spread ? number(((*site.spread).*what).*which, decimals) : Json();
}

Json marks(const Site& site, const Plan& plan) {
  Json all = Json::array();
  for (std::size_t i = 0; i < site.marks.size() && i < plan.report.marks.size(); ++i) {
    all.push_back({{"name", plan.report.marks[i].name},
                   {"distance_m", number(site.marks[i].distance_m, 1)},
                   {"bearing_deg", number(site.marks[i].bearing_deg, 1)}});
  }
  return all;
}

Json calendar(const Site& site) {
  Json all = Json::array();
  for (const CalendarHaul& haul : harvest_calendar(site)) {
    all.push_back({{"day", day(haul.day)}, {"fresh_t", number(haul.fresh_t, 4)}});
  }
  return all;
}

Json properties(const Site& site, const Plan& plan) {
  return {{"rank", page::is_ranked(site) ? Json(site.rank) : Json()},
          {"name", site.name},
          {"lon", number(site.centre.lon, 6)},
          {"lat", number(site.centre.lat, 6)},
          {"area_ha", number(site.area_ha, 4)},
          {"suitability", number(site.suitability, 4)},
          {"yield_t", number(site.yield_t, 4)},
          {"nitrogen_kg", number(site.nitrogen_kg, 3)},
          {"yield_t_p10", of_spread(site, &SiteSpread::yield_t, &Quantiles::p10, 4)},
          {"yield_t_p90", of_spread(site, &SiteSpread::yield_t, &Quantiles::p90, 4)},
          {"nitrogen_kg_p10", of_spread(site, &SiteSpread::nitrogen_kg, &Quantiles::p10, 3)},
          {"nitrogen_kg_p90", of_spread(site, &SiteSpread::nitrogen_kg, &Quantiles::p90, 3)},
          {"draw_down", page::draw_down_state(site)},
          {"yield_without_t", number(site.yield_without_t, 4)},
          {"nitrogen_without_kg", number(site.nitrogen_without_kg, 3)},
          {"yield_with_neighbours_t",
           site.with_neighbours ? number(site.with_neighbours->yield_t, 4) : Json()},
          {"nitrogen_with_neighbours_kg",
           site.with_neighbours ? number(site.with_neighbours->nitrogen_kg, 3) : Json()},
          {"neighbours", page::neighbour_names(site)},
          {"yield_kg_per_m", number(site.yield_kg_per_m, 4)},
          {"nitrogen_g_per_m", number(site.nitrogen_g_per_m, 3)},
          {"depth_min_m", number(site.depth_min_m, 2)},
          {"depth_max_m", number(site.depth_max_m, 2)},
          {"depth_high_min_m", number(site.depth_min_m + plan.depth.tidal_range_m, 2)},
          {"depth_high_max_m", number(site.depth_max_m + plan.depth.tidal_range_m, 2)},
          {"depth_datum", plan.depth.datum},
          {"depth_source", site.depth_source},
          {"outplant", day(site.outplant)},
          {"last_haul", day(site.last_haul)},
          {"harvests", site.harvests},
          {"lines", site.layout.lines},
          {"line_m", number(site.layout.line_m, 1)},
          {"bundles", site.layout.bundles},
          {"length_m", number(site.size.length_m, 2)},
          {"width_m", number(site.size.width_m, 2)},
          {"angle_deg", number(site.angle_deg, 1)},
          {"landing_km", site.landing_km ? number(*site.landing_km, 3) : Json()},
          {"limited_by", site.limited_by},
          {"cautions", site.cautions},
          {"unknown_share", number(site.unknown_share, 3)},
          {"apart", page::apart_note(site)},
          {"limits_by_month", site.season ? limits_by_month(site.season->months) : ""},
          {"field_checked", page::field_checked(site)},
          {"field_visits", site.field ? site.field->days : 0},
          {"field_months", page::field_months(site)},
          {"depth_mean_m", number(site.depth_mean_m, 2)},
          {"tidal_range_m", number(plan.depth.tidal_range_m, 2)},
          {"current_m_s", site.season ? number(site.season->current_m_s, 3) : Json()},
          {"shore_m", site.shore ? number(site.shore->distance_m, 1) : Json()},
          {"shore_bearing_deg", site.shore ? number(site.shore->bearing_deg, 1) : Json()},
          {"landing_straight_m", site.landing ? number(site.landing->distance_m, 1) : Json()},
          {"landing_bearing_deg", site.landing ? number(site.landing->bearing_deg, 1) : Json()},
          {"marks", marks(site, plan)},
          {"stocked_kg", number(1000.0 * site.stocked_t, 2)},
          {"harvest_calendar", calendar(site)},
          {"data_gaps", site.gaps},
          {"wave_50y_m", of_waves(site, &PlaceWaves::height_50y_m, 2)},
          {"wave_50y_period_s", of_waves(site, &PlaceWaves::period_50y_s, 1)},
          {"wave_1y_m", of_waves(site, &PlaceWaves::height_1y_m, 2)},
          {"wave_share_above", of_waves(site, &PlaceWaves::share_above, 4)},
          {"wave_line_m_s", of_waves(site, &PlaceWaves::at_line_m_s, 2)},
          {"wave_bed_m_s", of_waves(site, &PlaceWaves::at_bed_m_s, 2)},
          {"rules", rules(site, plan)},
          {"near", page::near_json(site.near, plan)}};
}

}  // namespace

std::string sites_geojson(std::span<const Site> sites, const Plan& plan) {
  Json features = Json::array();
  for (const Site& site : sites) {
    features.push_back({{"type", "Feature"},
                        {"geometry", polygon(site.corners)},
                        {"properties", properties(site, plan)}});
  }
  const Json all{{"type", "FeatureCollection"}, {"features", features}};
  // Bytes that are not UTF-8 cannot come from a plan, but a library's caller is not a plan.
  return all.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tidelot
