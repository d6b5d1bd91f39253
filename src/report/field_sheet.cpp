// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "report/html.hpp"
#include "report/parts.hpp"
#include "report/say.hpp"
#include "report/site_figures.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot {
namespace page {
namespace {

struct Reading {
  std::string_view what;
  std::string_view how;
};

/// Read at every station.
constexpr std::array<Reading, 22> kStationReadings{{
    {"Time, with zone", "start and end"},
    {"Position found, datum, accuracy", "decimal degrees, 6 places; m; mean of 60 s or more"},
    {"Tide stage, predicted height", "m above the datum; name the tide station"},
    {"Depth sounded", "m; six soundings or more over the site"},
    {"Transducer offset", "m"},
    {"Depth at low water", "m = sounded + offset - tide"},
    {"Secchi, down and up", "0.1 m; shaded side, 10:00 to 14:00; tick if on the bottom"},
    {"Light on deck; at 0.1, 0.5, 1, 2 m", "µmol m⁻² s⁻¹"},
    {"Temperature: surface, line, bottom", "°C"},
    {"Salinity: surface, line, bottom", "practical salinity; name the scale"},
    {"Current at peak flood: speed, direction toward, depth",
     "cm/s, ° true, m; meter, or drogue over 10 min"},
    {"Current at slack", "same"},
    {"Current at peak ebb", "same"},
    {"Nitrate + nitrite", "µmol/L or mg/L as N: ring which; filtered 0.45 µm: yes / no; on ice"},
    {"Ammonium", "same"},
    {"Phosphate", "µmol/L or mg/L as P: ring which"},
    {"Bottom; anchor bite", "mud, sand, shell, gravel, rock; m"},
    {"Eelgrass", "none / patchy / dense; % in five drops"},
    {"Wrecks, moorings, pot buoys, cable signs", "count, position"},
    {"Wild seaweeds, fouling, grazers, bloom", "words, photo ids"},
    {"Chlorophyll, turbidity, oxygen", "where carried; name the unit"},
    {"Photos N, E, S, W, shore", "ids"},
}};

/// Read once for the site.
constexpr std::array<Reading, 5> kSiteReadings{{
    {"Date, observer, boat", ""},
    {"Boats by kind in 20 minutes", "weekday; weekend"},
    {"Waves, wind, ice marks", "m; kn"},
    {"Samples: bottles, laboratory", "ids"},
    {"Anything that would rule the site out", "and how sure"},
}};

struct Station {
  std::string name;
  LonLat place;
  XY at;
};

std::vector<Station> stations(const Site& site) {
  std::vector<Station> all;
  for (std::size_t i = 0; i < site.corners.size(); ++i) {
    all.push_back({fmt::format("C{}", i + 1), site.corners[i], site.corners_xy[i]});
  }
  all.push_back({"Centre", site.centre, site.centre_xy});
  return all;
}

/// A map's value at a place, NaN outside the grid or where it is not known.
double value_at(const Grid& grid, std::span<const float> map, XY at) {
  const Cell cell = grid.cell_of(at);
  return grid.holds(cell) && !map.empty() ? map[grid.index(cell.col, cell.row)] : std::nan("");
}

std::string station_table(const Site& site, const ReportData& data) {
  const Units units = data.plan->report.units;
  Table table{"Where to go, WGS 84, latitude first, and what the map expects there",
              {{"Station"},
               {"Decimal degrees"},
               {"Degrees, decimal minutes"},
               {"Degrees, minutes, seconds"},
               {"Depth, low water", true},
               {"Yield", true}},
              {},
              "corners"};
  for (const Station& each : stations(site)) {
    table.rows.push_back(
        {each.name, decimal_degrees(each.place), decimal_minutes(each.place),
         minutes_seconds(each.place),
         in_line(length(value_at(*data.grid, data.maps.depth_low_water, each.at)), units),
         in_line(crop_per_m(value_at(*data.grid, data.maps.yield_kg_per_m, each.at)), units)});
  }
  return html(table);
}

std::string blank_table(const Site& site) {
  Table table{"At every station", {{"Reading"}, {"How, unit"}}, {}, "blank"};
  std::vector<std::string> names{"C1", "C2", "C3", "C4", "Centre"};
  if (site.area_ha > 2.0 * kAcreHa) {
    names.insert(names.end(), {"More 1", "More 2"});  // larger sites need more than five stations
  }
  for (const std::string& name : names) {
    table.columns.push_back({name});
  }
  for (const Reading& reading : kStationReadings) {
    std::vector<std::string> row{text(reading.what), text(reading.how)};
    row.resize(2 + names.size());
    table.rows.push_back(std::move(row));
  }
  return html(table);
}

std::string site_blank_table() {
  Table table{"Once for the site", {{"Reading"}, {"How, unit"}, {""}}, {}, "blank once"};
  for (const Reading& reading : kSiteReadings) {
    table.rows.push_back({text(reading.what), text(reading.how), ""});
  }
  return html(table);
}

/// Room for six soundings and two more.
std::string sounding_table() {
  Table table{"Soundings: six or more over the site",
              {{""},
               {"Position (decimal degrees)"},
               {"Time, with zone"},
               {"Sounded, m"},
               {"Offset, m"},
               {"Tide, m"},
               {"At low water, m"},
               {"ft"},
               {"Good, fair, poor"}},
              {},
              "blank soundings"};
  constexpr int kRows = 8;
  for (int i = 1; i <= kRows; ++i) {
    std::vector<std::string> row{std::to_string(i)};
    row.resize(table.columns.size());
    table.rows.push_back(std::move(row));
  }
  return html(table);
}

std::string expected(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  return element(
      "p class=\"note\"",
      fmt::format("The map expects: depth at low water {} (datum of the layer: {}), tidal range "
                  "{}, season {}, what holds it back most: {}.",
                  in_line(depths(site.depth_min_m, site.depth_max_m), units),
                  text(plan.depth.datum), in_line(length(plan.depth.tidal_range_m), units),
                  dates(site.outplant, site.last_haul), text(site.limited_by)) +
          (site.landing ? fmt::format(" From the site the landing lies {} away, true bearing {}.",
                                      in_line(distance(site.landing->distance_m), units),
                                      bearing(site.landing->bearing_deg))
                        : std::string()) +
          (site.season ? fmt::format(" Current: {} m/s, mean over the season.",
                                     fixed(site.season->current_m_s, 2))
                       : std::string()) +
          fmt::format(" Yield of the site {}, nitrogen {}. {} The stations' yields are the map's, "
                      "without it.",
                      in_line(crop(site.yield_t), units),
                      in_line(nitrogen(site.nitrogen_kg), units),
                      text(draw_down_sentence(site, units))));
}

std::string field_article(const Site& site, const ReportData& data) {
  const std::string name = site.own > 0 ? called(site) : "site " + short_name(site);
  const std::string heading =
      is_ranked(site) ? "Field sheet, " + name
                      : fmt::format("Field sheet, {} (listed apart: {})", name, apart_note(site));
  return element("article class=\"site-sheet field\"",
                 element("div class=\"sheet-head\"",
                         element("h2", text(heading) + element("span class=\"place\"",
                                                               text(data.plan->title)))) +
                     drawn_for(data) + expected(site, *data.plan) + station_table(site, data) +
                     site_blank_table() + blank_table(site) + sounding_table() +
                     element("p class=\"note\"",
                             "Depth at low water = sounded + transducer offset &minus; tide height "
                             "(tide positive above the datum). Keep the raw readings. One visit on "
                             "one tide clears nothing.") +
                     cautions_foot());
}

struct Asked {
  std::string_view property;
  std::string_view unit;
};
constexpr std::array<Asked, 6> kAsked{{
    {"temperature", "degC"},
    {"salinity", "psu"},
    {"secchi", "m"},
    {"nitrogen", "umol/L"},
    {"current", "m/s"},
    {"depth_low_water", "m"},
}};

/// What [field] readings takes back.
std::string readings_section() {
  return element(
      "section class=\"readings\"",
      element("h2", "To type in afterwards") +
          element("p",
                  "<code>field_readings.csv</code> beside this sheet has a row for every property "
                  "at every station. Keep a copy of it elsewhere (the next run replaces it), fill "
                  "in date (YYYY-MM-DD) and value, change positions to where you were, and name "
                  "it in the plan: <code>[field] readings = \"field_readings.csv\"</code>. One "
                  "reading a row; a property may stand in as many rows as it was read; rows "
                  "without a value are passed over. Properties: temperature, salinity, kd or "
                  "secchi, nitrogen, current, depth_low_water (already reduced to low water). The "
                  "last column is for your own words."));
}

}  // namespace
}  // namespace page

std::string field_readings_csv(const SitesResult& sites) {
  std::string rows = "lon,lat,date,property,value,unit,visit\n";
  for (const std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (const Site& site : *list) {
      for (const page::Station& station : page::stations(site)) {
        for (const page::Asked& asked : page::kAsked) {
          rows += fmt::format("{},{},,{},,{},{} {}\n", fixed(station.place.lon, 6),
                              fixed(station.place.lat, 6), asked.property, asked.unit, site.name,
                              station.name);
        }
      }
    }
  }
  return rows;
}

std::string field_sheet_html(const ReportData& data) {
  const page::Speaking speaking(*data.plan->report.labels);
  std::string body = page::title_block(*data.plan, "What to measure where: to take on the boat") +
                     page::cautions_in_full();
  for (const std::vector<Site>* sites : {&data.sites->ranked, &data.sites->apart}) {
    for (const Site& site : *sites) {
      body += page::field_article(site, data) + "\n";
    }
  }
  if (data.sites->ranked.empty() && data.sites->apart.empty()) {
    body += page::element("p class=\"answer\"",
                          "No site was found, so there is none to visit. The "
                          "report says what closed the water or held it "
                          "back.");
  }
  body += page::readings_section();
  return page::html({"Field sheet: " + data.plan->title,
                     page::element("main id=\"top\" class=\"field-sheet\"", body), "", false});
}

}  // namespace tidelot
