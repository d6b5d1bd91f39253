// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "report/words/words.hpp"
#include "support/report_fixture.hpp"

namespace tidelot {
namespace {

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST_CASE("stations stand with their positions in three formats", "[report]") {
  const test::ReportFixture bay;
  const std::string page = field_sheet_html(bay.data());
  for (const Site& site : bay.sites.ranked) {
    for (const LonLat& corner : site.corners) {
      CHECK(holds(page, page::decimal_degrees(corner)));
      CHECK(holds(page, page::decimal_minutes(corner)));
      CHECK(holds(page, page::minutes_seconds(corner)));
    }
    CHECK(holds(page, page::decimal_degrees(site.centre)));
  }
}

TEST_CASE("the expected depth is that of the station's own cell", "[report]") {
  test::ReportFixture bay;
  bay.sites.ranked.resize(1);
  bay.sites.apart.clear();
  std::fill(bay.depth.begin(), bay.depth.end(), 4.0F);
  const Cell cell = bay.grid().cell_of(bay.sites.ranked[0].corners_xy[0]);
  bay.depth[bay.grid().index(cell.col, cell.row)] = 9.87F;
  const std::string page = field_sheet_html(bay.data());
  const std::string row = page.substr(page.find("<th scope=\"row\">C1</th>"), 330);
  CHECK(holds(row, "9.9 m (32 ft)"));
}

TEST_CASE("a site above two acres has room for more stations", "[report]") {
  test::ReportFixture bay;
  CHECK(holds(field_sheet_html(bay.data()), "More 1"));
  for (auto* sites : {&bay.sites.ranked, &bay.sites.apart}) {
    for (Site& site : *sites) {
      site.area_ha = 0.8;
    }
  }
  CHECK_FALSE(holds(field_sheet_html(bay.data()), "More 1"));
}

TEST_CASE("the sheet asks for what is fed back", "[report]") {
  const std::string page = field_sheet_html(test::ReportFixture().data());
  for (const char* reading : {"Secchi", "Transducer offset", "Tide stage", "Salinity", "Ammonium",
                              "Eelgrass", "moorings, pot buoys"}) {
    INFO(reading);
    CHECK(holds(page, reading));
  }
  CHECK(holds(page, "Depth at low water = sounded + transducer offset − tide height"));
  CHECK(holds(page, "<footer class=\"cautions\">"));
  CHECK_FALSE(holds(page, "<script"));
}

/// Cells of the row that a name heads, without their markup.
std::vector<std::string> cells_of(const std::string& page, const std::string& name) {
  const std::size_t row = page.find("<th scope=\"row\">" + name + "</th>");
  REQUIRE(row != std::string::npos);
  const std::string text = page.substr(row, page.find("</tr>", row) - row);
  std::vector<std::string> cells;
  for (std::size_t at = text.find("<td>"); at != std::string::npos;
       at = text.find("<td>", at + 1)) {
    cells.push_back(text.substr(at + 4, text.find("</td>", at) - at - 4));
  }
  return cells;
}

/// One site whose water is known but for its light in winter, and layers with their errors.
test::ReportFixture bay_with_water() {
  test::ReportFixture bay;
  bay.sites.ranked.resize(1);
  bay.sites.apart.clear();
  SiteWater water;
  for (std::size_t month = 0; month < kMonths; ++month) {
    water.temperature_c[month] = 4.0 + static_cast<double>(month);
    water.salinity[month] = 29.25;
    water.kd_per_m[month] = month < 3 ? std::nan("") : 0.456;
    water.nitrogen_umol_l[month] = 10.0;
    water.current_m_s[month] = 0.123;
  }
  bay.sites.ranked[0].water = water;
  const auto layer = [](std::string key, std::optional<double> error, std::string unit) {
    LayerReport report;
    report.key = std::move(key);
    report.error = error;
    report.error_unit = std::move(unit);
    return report;
  };
  bay.layers = {layer("water.temperature", 0.8, "degC"), layer("water.salinity", {}, ""),
                layer("water.light", 0.5, "m"), layer("water.nitrogen", 2.0, "umol/L"),
                layer("water.current", 0.05, "m/s")};
  return bay;
}

TEST_CASE("the water that is expected stands month by month, with its spread and room beside it",
          "[report]") {
  const std::string page = field_sheet_html(bay_with_water().data());
  const auto temperature = cells_of(page, "Temperature, °C");
  REQUIRE(temperature.size() == 14);  // twelve months, spread, what is found
  CHECK(temperature[0] == "4.0");
  CHECK(temperature[11] == "15.0");
  CHECK(temperature[12] == "0.8");
  CHECK(temperature[13].empty());
  CHECK(cells_of(page, "Salinity")[12] == "not known");
  // 10 umol/L hold 10 * 14.007 ug = 0.140 mg of nitrogen in a litre.
  CHECK(cells_of(page, "DIN, µmol/L")[6] == "10.0");
  CHECK(cells_of(page, "DIN, mg/L as N")[6] == "0.140");
  CHECK(cells_of(page, "DIN, mg/L as N")[12] == "0.028");
  CHECK(cells_of(page, "Current, cm/s")[6] == "12");
  CHECK(cells_of(page, "Current, cm/s")[12] == "5");
}

TEST_CASE("water that is not known says so, and a spread in another unit keeps it", "[report]") {
  test::ReportFixture bay = bay_with_water();
  const auto kd = cells_of(field_sheet_html(bay.data()), "Kd, 1/m");
  CHECK(kd[0] == "not known");
  CHECK(kd[3] == "0.46");
  CHECK(kd[12] == "0.5 m");  // of the Secchi depth
  bay.sites.ranked[0].water.reset();
  for (int month = 0; month < kMonths; ++month) {
    CHECK(cells_of(field_sheet_html(bay.data()), "Temperature, °C")[std::size_t(month)] ==
          "not known");
  }
}

TEST_CASE("all that a visit writes down has its place", "[report]") {
  const std::string page = field_sheet_html(test::ReportFixture().data());
  for (const char* each :
       {"start and end of the visit, with time zone", "Tide station, its datum", "Tide applied",
        "Light (PAR)", "On deck", "0.1 m", "filtered 0.45 µm: yes / no", "photo ids", "Initials",
        "Field-checked so far: not field-checked", "Good, fair, poor", "Photos N, E, S, W, shore",
        "Boats by kind in 20 minutes"}) {
    INFO(each);
    CHECK(holds(page, each));
  }
}

TEST_CASE("the readings' table is a file in English whatever the page speaks", "[report]") {
  test::ReportFixture bay;
  const std::string plain = field_readings_csv(bay.sites);
  bay.plan.report.labels = Labels::from_text("[field]\ncentre = \"Mitte\"\n", "words.toml");
  CHECK(field_readings_csv(bay.sites) == plain);
  CHECK(holds(plain, "S01 Centre"));
  CHECK(holds(field_sheet_html(bay.data()), "<th scope=\"row\">Mitte</th>"));
}

}  // namespace
}  // namespace tidelot
