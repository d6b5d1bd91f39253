// SPDX-License-Identifier: Apache-2.0
// The sheet for the boat: where to go, what the run expects there, and room for what is found.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "growth/numbers.hpp"
#include "report/parts.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot {
namespace page {
namespace {

/// Readings of a station, in the order of work; each has the labels field.NAME and field.NAME_how.
constexpr std::array<std::string_view, 23> kStationReadings{
    "time",     "position", "tide",       "sounded",     "offset",    "tide_applied",
    "depth",    "secchi",   "surface_ts", "line_ts",     "bottom_ts", "flood",
    "slack",    "ebb",      "nitrate",    "ammonium",    "phosphate", "bottom",
    "eelgrass", "wrecks",   "wild_life",  "chlorophyll", "photos"};

/// Readings taken once for the site, likewise.
constexpr std::array<std::string_view, 6> kSiteReadings{"who",   "tide_station", "boats",
                                                        "waves", "samples",      "rule_out"};

struct Station {
  std::string name;  ///< in the language that is spoken
  LonLat place;
  XY at;
};

std::vector<Station> stations(const Site& site) {
  std::vector<Station> all;
  for (std::size_t i = 0; i < site.corners.size(); ++i) {
    all.push_back({fmt::format("C{}", i + 1), site.corners[i], site.corners_xy[i]});
  }
  all.push_back({label("field.centre"), site.centre, site.centre_xy});
  return all;
}

/// A map's value at a place, NaN outside the grid or where it is not known.
double value_at(const Grid& grid, std::span<const float> map, XY at) {
  const Cell cell = grid.cell_of(at);
  return grid.holds(cell) && !map.empty() ? map[grid.index(cell.col, cell.row)] : std::nan("");
}

// --- what the run expects ------------------------------------------------------------------------

std::string station_table(const Site& site, const ReportData& data) {
  const Units units = data.plan->report.units;
  Table table{label("field.where_to_go"),
              {{label("field.station")},
               {label("position.decimal_degrees")},
               {label("position.degrees_decimal_minutes")},
               {label("position.degrees_minutes_seconds")},
               {label("field.depth_low_water"), true},
               {label("field.yield"), true}},
              {},
              "corners"};
  for (const Station& each : stations(site)) {
    table.rows.push_back(
        {text(each.name), decimal_degrees(each.place), decimal_minutes(each.place),
         minutes_seconds(each.place),
         text(in_line(length(value_at(*data.grid, data.maps.depth_low_water, each.at)), units)),
         text(
             in_line(crop_per_m(value_at(*data.grid, data.maps.yield_kg_per_m, each.at)), units))});
  }
  return html(table);
}

/// A property of the water as the sheet prints it.
struct Expected {
  std::string_view name;   ///< a label
  std::string_view layer;  ///< key of the layer whose error is its spread
  SiteWater::Year SiteWater::*year;
  double factor;  ///< from the canonical unit to the one that is printed
  int decimals;
};
constexpr std::array<Expected, 6> kExpected{{
    {"field.water_temperature", "water.temperature", &SiteWater::temperature_c, 1.0, 1},
    {"field.water_salinity", "water.salinity", &SiteWater::salinity, 1.0, 1},
    {"field.water_kd", "water.light", &SiteWater::kd_per_m, 1.0, 2},
    {"field.water_din", "water.nitrogen", &SiteWater::nitrogen_umol_l, 1.0, 1},
    {"field.water_din_mg", "water.nitrogen", &SiteWater::nitrogen_umol_l, kNitrogenPerMillimole, 3},
    {"field.water_current", "water.current", &SiteWater::current_m_s, 100.0, 0},
}};

/// "0.8": one standard deviation in the printed unit; that of a Secchi depth or a turbidity with
/// its own unit.
std::string spread_of(const Expected& row, std::span<const LayerReport> layers) {
  const auto found = std::find_if(layers.begin(), layers.end(), [&](const LayerReport& each) {
    return each.key == row.layer && each.error;
  });
  if (found == layers.end()) {
    return label("words.not_known");
  }
  const bool own_unit = row.layer == "water.light" && found->error_unit != "1/m";
  return own_unit ? fmt::format("{:.3g} {}", *found->error, found->error_unit)
                  : fixed(*found->error * row.factor, row.decimals);
}

std::string water_table(const Site& site, const ReportData& data) {
  Table table{plain_say("field.water", dates(site.outplant, site.last_haul)),
              {{label("field.property")}},
              {},
              "blank water"};
  for (int month = 0; month < kMonths; ++month) {
    table.columns.push_back({short_month(month)});
  }
  table.columns.push_back({label("field.spread")});
  table.columns.push_back({label("field.found")});
  for (const Expected& row : kExpected) {
    std::vector<std::string> cells{say(row.name)};
    for (std::size_t month = 0; month < kMonths; ++month) {
      const double value =
          site.water ? ((*site.water).*row.year)[month] * row.factor : std::nan("");
      cells.push_back(std::isnan(value) ? say("words.not_known") : fixed(value, row.decimals));
    }
    cells.push_back(text(spread_of(row, data.layers)));
    cells.emplace_back();
    table.rows.push_back(std::move(cells));
  }
  return html(table) + element("p class=\"note\"", say("field.water_note"));
}

std::string expected(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  const auto words = [&](const Measure& measure) { return text(in_line(measure, units)); };
  std::string all = say("field.map_expects", words(depths(site.depth_min_m, site.depth_max_m)),
                        text(plan.depth.datum), words(length(plan.depth.tidal_range_m)),
                        dates(site.outplant, site.last_haul), text(translated(site.limited_by)));
  if (site.landing) {
    all += " " + say("field.landing_lies", words(distance(site.landing->distance_m)),
                     bearing(site.landing->bearing_deg));
  }
  all +=
      " " + say("field.site_gives", words(crop(site.yield_t)), words(nitrogen(site.nitrogen_kg)));
  all += " " + text(draw_down_sentence(site, units)) + " " + say("field.without_it");
  all += " " + say("field.checked_so_far", text(field_sentence(site)));
  return element("p class=\"note\"", all);
}

// --- room to write -------------------------------------------------------------------------------

/// A blank table: columns by their labels, rows by their names, all else empty.
std::string blank_table(std::string_view caption, std::span<const std::string_view> columns,
                        std::span<const std::string> rows, std::string_view kind) {
  Table table{label(caption), {{""}}, {}, std::string(kind)};
  for (const std::string_view column : columns) {
    table.columns.push_back({label(column)});
  }
  for (const std::string& name : rows) {
    std::vector<std::string> row{text(name)};
    row.resize(table.columns.size());
    table.rows.push_back(std::move(row));
  }
  return html(table);
}

std::vector<std::string> numbers(int last) {
  std::vector<std::string> all;
  for (int i = 1; i <= last; ++i) {
    all.push_back(std::to_string(i));
  }
  return all;
}

/// C1 to C4 and the centre, and two more on a site that is larger than five stations cover.
std::vector<std::string> station_names(const Site& site) {
  std::vector<std::string> names;
  for (const Station& each : stations(site)) {
    names.push_back(each.name);
  }
  if (site.area_ha > 2.0 * kAcreHa) {
    names.insert(names.end(), {plain_say("field.more", 1), plain_say("field.more", 2)});
  }
  return names;
}

std::string reading_table(const Site& site) {
  Table table{label("field.at_every_station"),
              {{label("field.reading")}, {label("field.how")}},
              {},
              "blank how"};
  for (const std::string& name : station_names(site)) {
    table.columns.push_back({name});
  }
  for (const std::string_view reading : kStationReadings) {
    std::vector<std::string> row{say(fmt::format("field.{}", reading)),
                                 say(fmt::format("field.{}_how", reading))};
    row.resize(table.columns.size());
    table.rows.push_back(std::move(row));
  }
  return html(table);
}

std::string site_reading_table() {
  Table table{label("field.once_for_the_site"),
              {{label("field.reading")}, {label("field.how")}, {""}},
              {},
              "blank how once"};
  for (const std::string_view reading : kSiteReadings) {
    table.rows.push_back(
        {say(fmt::format("field.{}", reading)), say(fmt::format("field.{}_how", reading)), ""});
  }
  return html(table);
}

/// Room for six soundings and two more.
std::string sounding_table() {
  constexpr std::array<std::string_view, 9> kColumns{
      "field.position_degrees", "field.time_with_zone", "field.sounded_unit",
      "field.offset_unit",      "field.tide_unit",      "field.low_water_m",
      "field.low_water_ft",     "field.quality",        "field.tide_source"};
  return blank_table("field.soundings", kColumns, numbers(8), "blank soundings");
}

std::string light_table(const Site& site) {
  constexpr std::array<std::string_view, 7> kColumns{
      "field.on_deck", "field.at_0_1", "field.at_0_5", "field.at_1",
      "field.at_2",    "field.kd",     "field.sky"};
  return blank_table("field.light", kColumns, station_names(site), "blank light");
}

/// What was found that no layer holds: it closes water in the next run.
std::string found_table() {
  constexpr std::array<std::string_view, 4> kColumns{"field.what", "field.from_to", "field.date",
                                                     "field.initials"};
  return blank_table("field.found_here", kColumns, numbers(3), "blank found") +
         element("p class=\"note\"", say("field.found_note"));
}

std::string heading(const Site& site, const ReportData& data) {
  const std::string name =
      is_ranked(site) ? say("field.site", text(called(site)))
                      : say("field.site_apart", text(called(site)), text(apart_note(site)));
  return element("div class=\"sheet-head\"",
                 element("h2", name + element("span class=\"place\"", text(data.plan->title)))) +
         drawn_for(data);
}

std::string field_article(const Site& site, const ReportData& data) {
  const std::string head = heading(site, data);
  return element("article class=\"site-sheet field\"",
                 head + expected(site, *data.plan) + station_table(site, data) +
                     water_table(site, data) + site_reading_table() + sounding_table() +
                     found_table() + for_paper(cautions_foot()) +
                     element("div class=\"next-page\"",
                             for_paper(head) + reading_table(site) + light_table(site) +
                                 element("p class=\"note\"",
                                         say("field.depth_sum") + " " + say("field.one_visit")) +
                                 cautions_foot()));
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
  return element("section class=\"readings\"",
                 element("h2", say("field.to_type_in")) +
                     element("p", say("field.readings", element("code", "field_readings.csv"),
                                      element("code", "[field] readings = \"field_readings.csv\""),
                                      element("code",
                                              "temperature, salinity, kd, secchi, nitrogen, "
                                              "current, depth_low_water"))));
}

}  // namespace
}  // namespace page

std::string field_readings_csv(const SitesResult& sites) {
  const page::Speaking english(*Labels::built_in());  // a file, not a page
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
  std::string body =
      page::title_block(*data.plan, page::label("field.title")) + page::cautions_in_full();
  for (const std::vector<Site>* sites : {&data.sites->ranked, &data.sites->apart}) {
    for (const Site& site : *sites) {
      body += page::field_article(site, data) + "\n";
    }
  }
  if (data.sites->ranked.empty() && data.sites->apart.empty()) {
    body += page::element("p class=\"answer\"", page::say("field.no_site"));
  }
  body += page::readings_section();
  return page::html({page::plain_say("field.field_sheet", data.plan->title),
                     page::element("main id=\"top\" class=\"field-sheet\"", body), "", false});
}

}  // namespace tidelot
