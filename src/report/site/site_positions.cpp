// SPDX-License-Identifier: Apache-2.0
// Where a site lies: corners, sides, area, and what lies which way.
#include <fmt/format.h>

#include <cmath>

#include "report/parts.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
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
  Table table{plain_say("position.corners_and_centre_latitude_first", printed.datum),
              {{label("position.point")},
               {label("position.decimal_degrees")},
               {label("position.degrees_decimal_minutes")},
               {label("position.degrees_minutes_seconds")},
               {label("position.easting_m"), true},
               {label("position.northing_m"), true}},
              {},
              "corners"};
  for (std::size_t i = 0; i < printed.corners.size(); ++i) {
    table.rows.push_back(
        position_row(fmt::format("C{}", i + 1), printed.corners[i], printed.utm_corners[i], utm));
  }
  table.rows.push_back(
      position_row(label("position.centre"), printed.centre, printed.utm_centre, utm));
  return html(table);
}

std::string datum_note(const Printed& printed) {
  std::string note = printed.utm_zone.empty()
                         ? std::string()
                         : plain_say("position.easting_and_northing", text(printed.utm_zone)) + " ";
  if (!printed.operation.empty()) {
    note += plain_say("position.from_wgs_84_by_the_files", text(printed.datum),
                      text(printed.operation));
  }
  return note.empty() ? "" : element("p class=\"note\"", note);
}

std::vector<std::string> direction_row(const std::string& what, const Direction& direction,
                                       const std::string& how, Units units) {
  return {text(what), in_line(distance(direction.distance_m), units),
          bearing(direction.bearing_deg), text(how)};
}

std::string shore_note(const Shore& shore, double cell_m) {
  const std::string how = plain_say("position.from_the_sites_edge_to", shortest(cell_m));
  return shore.map_ends_nearer ? how + "; " + label("position.the_map_ends_nearer_than") : how;
}

}  // namespace

std::string area_sentence(const Site& site, Units units) {
  const Printed& printed = site.printed;
  const double exact = site.area_unrounded_ha;
  const auto fine = [units](double ha) {
    return in_line({plain_say("position.ha", fixed(ha, 4)), area(ha).us}, units);
  };
  const std::string all = plain_say("position.on_the_wgs_84_ellipsoid", fine(printed.area_ha));
  return exact > 0.0 && std::abs(printed.area_ha / exact - 1.0) > kWorthTelling
             ? all + " " + plain_say("position.of_the_corners_before_rounding", fine(exact))
             : all;
}

std::string site_corners(const Site& site) {
  return corner_table(site.printed) + datum_note(site.printed);
}

std::string site_sides(const Site& site, Units units) {
  const Printed& printed = site.printed;
  Table table{label("position.sides_computed_from_the_corners"),
              {{label("position.side")},
               {label("position.length"), true},
               {label("position.true_bearing"), true}},
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
  Table table{label("position.what_lies_which_way"),
              {{label("position.what")},
               {label("position.distance"), true},
               {label("position.true_bearing_from_the_centre"), true},
               {label("position.how")}},
              {},
              ""};
  if (site.landing) {
    table.rows.push_back(direction_row(label("position.the_landing"), *site.landing,
                                       label("position.straight_from_the_centre"), units));
  }
  if (site.shore) {
    table.rows.push_back(direction_row(label("position.the_shore"), *site.shore,
                                       shore_note(*site.shore, plan.area.cell_m), units));
  } else {
    table.rows.push_back({label("position.the_shore"), label("words.not_known"), "",
                          label("position.the_map_shows_no_land")});
  }
  for (std::size_t i = 0; i < site.marks.size() && i < plan.report.marks.size(); ++i) {
    table.rows.push_back(direction_row(plan.report.marks[i].name, site.marks[i],
                                       label("position.straight_from_the_centre"), units));
  }
  return html(table);
}

}  // namespace tidelot::page
