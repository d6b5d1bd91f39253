// SPDX-License-Identifier: Apache-2.0
// Where a site lies: corners, sides, area, and what lies which way.
#include <fmt/format.h>

#include <cmath>

#include "report/html.hpp"
#include "report/parts.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr double kWorthTelling = 0.001;  // of the area, between rounded and exact corners

std::vector<std::string> position_row(const std::string& name, LonLat place, XY utm, bool has_utm) {
  return {name,
          decimal_degrees(place),
          decimal_minutes(place),
          minutes_seconds(place),
          has_utm ? fixed(utm.x, 2) : "",
          has_utm ? fixed(utm.y, 2) : ""};
}

std::string corner_table(const Printed& printed) {
  const bool utm = !printed.utm_zone.empty();
  Table table{"Corners and centre, " + printed.datum + ", latitude first",
              {{"Point"},
               {"Decimal degrees"},
               {"Degrees, decimal minutes"},
               {"Degrees, minutes, seconds"},
               {"Easting, m", true},
               {"Northing, m", true}},
              {},
              "corners"};
  for (std::size_t i = 0; i < printed.corners.size(); ++i) {
    table.rows.push_back(
        position_row(fmt::format("C{}", i + 1), printed.corners[i], printed.utm_corners[i], utm));
  }
  table.rows.push_back(position_row("Centre", printed.centre, printed.utm_centre, utm));
  return html(table);
}

std::string datum_note(const Printed& printed) {
  std::string note = printed.utm_zone.empty()
                         ? std::string()
                         : "Easting and northing: " + text(printed.utm_zone) + ". ";
  if (!printed.operation.empty()) {
    note += text(printed.datum) + " from WGS 84 by: " + text(printed.operation) +
            ". The files sites.csv, .geojson, .gpkg and .gpx are in WGS 84.";
  }
  return note.empty() ? "" : element("p class=\"note\"", note);
}

std::vector<std::string> direction_row(const std::string& what, const Direction& direction,
                                       const std::string& how, Units units) {
  return {text(what), in_line(distance(direction.distance_m), units),
          bearing(direction.bearing_deg), text(how)};
}

std::string shore_note(const Shore& shore, double cell_m) {
  return fmt::format(
      "from the site's edge to the nearest cell that is dry at low water, or on the plan's land: "
      "from the grid of {} m cells{}",
      shortest(cell_m),
      shore.map_ends_nearer ? "; the map ends nearer than that, land may lie beyond" : "");
}

}  // namespace

std::string area_sentence(const Site& site, Units units) {
  const Printed& printed = site.printed;
  const double exact = site.area_unrounded_ha;
  const std::string both =
      exact > 0.0 && std::abs(printed.area_ha / exact - 1.0) > kWorthTelling
          ? fmt::format(" (of the corners before rounding: {})",
                        in_line({fixed(exact, 4) + " ha", area(exact).us}, units))
          : "";
  return in_line({fixed(printed.area_ha, 4) + " ha", area(printed.area_ha).us}, units) +
         " on the WGS 84 ellipsoid, of the corners as printed, with geodesic sides (Karney 2013)" +
         both;
}

std::string site_corners(const Site& site) {
  return corner_table(site.printed) + datum_note(site.printed);
}

std::string site_sides(const Site& site, Units units) {
  const Printed& printed = site.printed;
  Table table{"Sides, computed from the corners as printed, on the WGS 84 ellipsoid",
              {{"Side"}, {"Length", true}, {"True bearing", true}},
              {},
              ""};
  for (std::size_t i = 0; i < printed.sides.size(); ++i) {
    table.rows.push_back({fmt::format("C{} to C{}", i + 1, (i + 1) % printed.sides.size() + 1),
                          in_line(side(printed.sides[i].length_m), units),
                          fine_bearing(printed.sides[i].bearing_deg)});
  }
  return html(table);
}

std::string site_directions(const Site& site, const ReportData& data) {
  const Plan& plan = *data.plan;
  const Units units = plan.report.units;
  Table table{"What lies which way",
              {{"What"}, {"Distance", true}, {"True bearing from the centre", true}, {"How"}},
              {},
              ""};
  if (site.landing) {
    table.rows.push_back(
        direction_row("The landing", *site.landing, "straight, from the centre", units));
  }
  if (site.shore) {
    table.rows.push_back(
        direction_row("The shore", *site.shore, shore_note(*site.shore, plan.area.cell_m), units));
  } else {
    table.rows.push_back({"The shore", "not known", "", "the map shows no land"});
  }
  for (std::size_t i = 0; i < site.marks.size() && i < plan.report.marks.size(); ++i) {
    table.rows.push_back(direction_row(plan.report.marks[i].name, site.marks[i],
                                       "straight, from the centre", units));
  }
  return html(table);
}

}  // namespace tidelot::page
