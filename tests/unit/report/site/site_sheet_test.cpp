// SPDX-License-Identifier: Apache-2.0
// What a site's sheet and the load table say.
#include <catch2/catch.hpp>
#include <string>

#include "report/parts.hpp"
#include "support/report_fixture.hpp"

using namespace tidelot;

namespace {

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// The bay's first site with 60 kg stocked, a season of 73 days and two harvests.
Site grown(const test::ReportFixture& bay) {
  Site site = bay.sites.ranked[0];
  site.yield_t = 3.0;
  site.nitrogen_kg = 12.0;
  site.stocked_t = 0.06;
  site.stocked_nitrogen_kg = 0.24;
  SiteSeason season;
  season.window = {SeasonState::grows, 151, 223};
  season.harvests = {{13, 100.0}, {72, 400.0}};
  season.current_m_s = 0.137;
  season.dry_to_fresh = 0.1;
  site.season = season;
  return site;
}

}  // namespace

TEST_CASE("corners stand in three forms and in UTM, with sides and bearings to the second",
          "[report]") {
  test::ReportFixture bay;
  Site site = bay.sites.ranked[0];
  site.printed.corners[0] = {-30.054321, 41.034567};
  site.printed.utm_zone = "WGS 84 / UTM zone 26N (EPSG:32626)";
  site.printed.utm_corners[0] = {579456.784, 4543210.125};
  site.printed.sides[0] = {189.736, 45.21};
  const std::string page = page::site_corners(site) + page::site_sides(site, bay.plan.report.units);
  CHECK(holds(page, "Corners and centre, WGS 84, latitude first"));
  CHECK(holds(page, "41.034567, -30.054321"));
  CHECK(holds(page, "41° 02.074′ N, 30° 03.259′ W"));
  CHECK(holds(page, "41° 02′ 04.4″ N, 30° 03′ 15.6″ W"));
  CHECK(holds(page, "579456.78"));
  CHECK(holds(page, "WGS 84 / UTM zone 26N (EPSG:32626)"));
  CHECK(holds(page, "189.74 m (622.49 ft)"));
  CHECK(holds(page, "045° 12′ 36″"));
  CHECK_FALSE(holds(page, "from WGS 84 by"));
  site.printed.datum = "NAD 83";
  site.printed.operation = "Inverse of NAD83 to WGS 84 (1), accuracy 4 m";
  const std::string shifted = page::site_corners(site);
  CHECK(holds(shifted, "Corners and centre, NAD 83, latitude first"));
  CHECK(holds(shifted, "NAD 83 from WGS 84 by: Inverse of NAD83 to WGS 84 (1), accuracy 4 m"));
}

TEST_CASE("a bearing of almost a full turn is north", "[report]") {
  CHECK(page::fine_bearing(359.99999) == "000° 00′ 00″");
  CHECK(page::fine_bearing(0.0) == "000° 00′ 00″");
  CHECK(page::fine_bearing(270.5) == "270° 30′ 00″");
}

TEST_CASE("both areas are told where rounding the corners changes more than a thousandth",
          "[report]") {
  Site site;
  site.printed.area_ha = 1.2000;
  site.area_unrounded_ha = 1.2011;
  CHECK_FALSE(holds(page::area_sentence(site, page::Units::both), "before rounding"));
  site.area_unrounded_ha = 1.2013;
  CHECK(holds(page::area_sentence(site, page::Units::both), "before rounding: 1.2013 ha"));
  CHECK(holds(page::area_sentence(site, page::Units::both), "1.2000 ha (2.97 acres)"));
  CHECK(holds(page::area_sentence(site, page::Units::both), "Karney 2013"));
}

TEST_CASE("landing, shore and marks with distance and bearing", "[report]") {
  test::ReportFixture bay;
  bay.plan.report.marks = {{"light <b>", {-30.0, 41.0}}};
  Site site = bay.sites.ranked[0];
  CHECK(holds(page::site_directions(site, bay.data()), "the map shows no land"));
  site.landing = Direction{1400.0, 271.4};
  Shore shore;
  shore.distance_m = 83.0;
  shore.bearing_deg = 10.0;
  shore.map_ends_nearer = true;
  site.shore = shore;
  site.marks = {{5230.0, 45.0}};
  const std::string page = page::site_directions(site, bay.data());
  CHECK(holds(page, "1.40 km"));
  CHECK(holds(page, "271°"));
  CHECK(holds(page, "83 m"));
  CHECK(holds(page, "from the grid of 50 m cells; the map ends nearer"));
  CHECK(holds(page, "light &lt;b&gt;"));
  CHECK(holds(page, "5.23 km"));
}

TEST_CASE("the harvest calendar adds up and says what it is", "[report]") {
  const test::ReportFixture bay;
  const std::string page = page::harvest_table(grown(bay), bay.plan);
  CHECK(holds(page, "13 June"));    // day 164
  CHECK(holds(page, "0.612 t"));    // a fifth of 3.06 t
  CHECK(holds(page, "11 August"));  // day 223
  CHECK(holds(page, "2.45 t"));
  CHECK(holds(page, "the site's yield of 3.00 t"));
  CHECK(page::harvest_table(bay.sites.ranked[0], bay.plan).empty());
}

TEST_CASE("shares and cost stand on the sheet where the plan gives load and money", "[report]") {
  test::ReportFixture bay;
  const Site site = grown(bay);
  const std::string bare = page::site_account(site, bay.plan);
  CHECK(holds(bare, "estimate, not a credit"));
  CHECK_FALSE(holds(bare, "Share of"));
  bay.plan.load = LoadPlan{1200.0, "total N", "", "", 2024, 25.0, 1.0};
  bay.plan.money = MoneyPlan{9.5, 30'000.0};
  const std::string page = page::site_account(site, bay.plan);
  CHECK(holds(page, "1.00 % of 1200 kg"));
  CHECK(holds(page, "kind: total N; segment: not stated"));
  CHECK(holds(page, "4.00 % of the 25 % of it to be taken out"));
  CHECK(holds(page, "5.00 % of the load of 73 days"));
  CHECK(holds(page, "77 % of a load, at 1 month in"));
  CHECK(holds(page, "9.23 kg"));      // 12 / 1.3
  CHECK(holds(page, "3028 per kg"));  // (9.5 x 666.84 + 30000) / 12
}

TEST_CASE("the load table has every site and all at once, its notes and what was published",
          "[report]") {
  test::ReportFixture bay;
  bay.plan.load = LoadPlan{52000.0, "total N, <delivered>", "", "", {}, {}, {}};
  const std::string page = page::load_section(bay.data());
  CHECK(holds(page, "Estimate, not a credit"));
  CHECK(holds(page, "href=\"#site-S05\""));
  CHECK(holds(page, "All at once"));
  CHECK(holds(page, "total N, &lt;delivered&gt;"));
  CHECK(holds(page, "baseline year: not stated"));
  CHECK(holds(page, "10.3389/faquc.2023.1147524"));
  CHECK_FALSE(holds(page, "Of the goal"));
  CHECK_FALSE(holds(page, "Cost"));
  bay.sites.ranked.clear();
  CHECK(page::load_section(bay.data()).empty());
}

TEST_CASE("what is the same everywhere, and what is not known, is told", "[report]") {
  test::ReportFixture bay;
  Site site = bay.sites.ranked[0];
  site.gaps = {"salinity not known over 4 % of it"};
  bay.plan.current.source = 0.15;
  bay.plan.salinity.source = Monthly{};
  bay.plan.temperature.source = FileRef{};
  bay.plan.keys.push_back({"depth.tidal_range_m", "2.1", false, "judgement"});
  const std::string page = page::data_gaps(site, bay.plan);
  CHECK(holds(page, "salinity not known over 4 % of it"));
  CHECK(holds(page, "Current: one number, the same everywhere and all year"));
  CHECK(holds(page, "Salinity: twelve numbers, the same everywhere"));
  CHECK_FALSE(holds(page, "Temperature:"));
  CHECK(holds(page, "depth.tidal_range_m: a default"));
  CHECK(holds(page, "3 keys at their defaults"));
}

TEST_CASE("a sheet bears the plan's date, or room to write one", "[report]") {
  test::ReportFixture bay;
  CHECK(holds(page::drawn_for(bay.data()), "Date: ____"));
  bay.plan.report.date = "2026-06-14";
  CHECK(holds(page::drawn_for(bay.data()), "Date: 2026-06-14"));
}
