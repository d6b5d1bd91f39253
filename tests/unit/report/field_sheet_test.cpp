// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "report/words.hpp"
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
  CHECK(holds(page, "Depth at low water = sounded + transducer offset &minus; tide height"));
  CHECK(holds(page, "<footer class=\"cautions\">"));
  CHECK_FALSE(holds(page, "<script"));
}

}  // namespace
}  // namespace tidelot
