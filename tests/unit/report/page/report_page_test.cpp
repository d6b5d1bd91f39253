// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <regex>

#include "report/page/whole_page.hpp"
#include "support/report_fixture.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot {
namespace {

std::string report_of(const test::ReportFixture& bay) {
  test::PngTwin writer;
  return report_html(bay.data(), writer);
}

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos;
       at = text.find(part, at + part.size())) {
    ++found;
  }
  return found;
}

bool holds(const std::string& text, const std::string& part) { return times(text, part) > 0; }

/// What stands between the first of one and the next of the other; "" where there is none.
std::string inside(const std::string& text, const std::string& open, const std::string& close) {
  const std::size_t start = text.find(open);
  return start == std::string::npos
             ? ""
             : text.substr(start + open.size(), text.find(close, start) - start - open.size());
}

nlohmann::json map_data(const std::string& page) {
  const std::string open = "id=\"map-data\">";
  const std::size_t start = page.find(open) + open.size();
  return nlohmann::json::parse(page.substr(start, page.find("</script>", start) - start));
}

TEST_CASE("the same run gives the same page", "[report]") {
  const test::ReportFixture bay;
  CHECK(report_of(bay) == report_of(bay));
}

TEST_CASE("the title block holds the plan's date, and none where it has none", "[report]") {
  test::ReportFixture bay;
  const auto title = [&] {
    const std::string page = report_of(bay);
    return page.substr(page.find("<header"), page.find("</header>") - page.find("<header"));
  };
  CHECK_FALSE(holds(title(), "Date"));
  bay.plan.report.date = "2026-06-14";
  CHECK(holds(title(), "<span>Date: 2026-06-14</span>"));
}

TEST_CASE("no request leaves the page", "[report]") {
  const test::ReportFixture bay;
  test::PngTwin writer;
  for (const std::string& page : {report_of(bay), field_sheet_html(bay.data())}) {
    const std::string script = inside(page, "<script>", "</script>");
    CHECK(holds(page, "Content-Security-Policy\" content=\"" +
                          page::policy(inside(page, "<style>", "</style>"), script) + "\""));
    CHECK(times(page, "<script") == (script.empty() ? 0 : 2));  // the other one holds data
    CHECK(times(page, "<style") == 1);
    CHECK_FALSE(std::regex_search(page, std::regex("<[^>]* (style|on[a-z]+)=")));
    for (const char* unwanted : {"http:", "https:", "url(http", "@import", "<link", "<iframe",
                                 "fetch(", "XMLHttpRequest", "src=\"//"}) {
      INFO(unwanted);
      CHECK_FALSE(holds(page, unwanted));
    }
    const std::regex link("(?:href|src)=\"([^\"]*)\"");
    for (std::sregex_iterator it(page.begin(), page.end(), link), end; it != end; ++it) {
      const std::string target = (*it)[1];
      CHECK((target.rfind('#', 0) == 0 || target.rfind("data:image/png;base64,", 0) == 0));
    }
  }
}

TEST_CASE("links inside the page have their ends", "[report]") {
  const test::ReportFixture bay;
  const std::string all = report_of(bay);
  const std::string page = all.substr(0, all.find("<script"));
  const std::regex link("href=\"#([^\"]*)\"");
  std::size_t links = 0;
  for (std::sregex_iterator it(page.begin(), page.end(), link), end; it != end; ++it, ++links) {
    const std::string target = (*it)[1];
    INFO(target);
    CHECK(times(page, " id=\"" + target + "\"") == 1);
  }
  CHECK(links > 20);
}

TEST_CASE("names from outside never become markup", "[report]") {
  test::ReportFixture bay;
  const std::string evil = "</script><img src=x onerror=alert(1)>\"'&\xF0\x9F\x8C\x8A";
  bay.plan.title = bay.plan.report.applicant = bay.plan.report.waterbody = evil;
  bay.plan.depth.datum = bay.plan.crop.title = evil;
  bay.plan.keys.push_back({evil, "\"" + std::string("<b>") + "\"", false, evil});
  bay.warnings = {evil};
  for (ClosedPlan& rule : bay.plan.closed) {
    rule.name = rule.rule = evil;
  }
  for (ClosedLayer& layer : bay.rules) {
    layer.plan.name = evil;
  }
  std::fill(bay.reason_texts.begin(), bay.reason_texts.end(), evil);
  for (LayerReport& layer : bay.layers) {
    layer.what = layer.unit = layer.crs = layer.operation = layer.verdict = layer.basis = evil;
  }
  for (Site& site : bay.sites.ranked) {
    site.limited_by = evil;
    site.cautions = {evil};
  }
  bay.sites.notes = {evil};
  for (const std::string& page : {report_of(bay), field_sheet_html(bay.data())}) {
    CHECK_FALSE(holds(page, "<img src=x"));
    CHECK_FALSE(holds(page, "onerror=alert(1)>"));
    CHECK(holds(page, "&lt;img src=x onerror=alert(1)&gt;&quot;&#39;&amp;\xF0\x9F\x8C\x8A"));
  }
  const std::string page = report_of(bay);
  CHECK(times(page, "</script>") == 2);
  CHECK(map_data(page)["reasons"][0] == evil);
}

TEST_CASE("the answer comes first and names the first choice", "[report]") {
  const test::ReportFixture bay;
  const std::string page = report_of(bay);
  CHECK(holds(page, "5 places were found for a longline site of 1.20 ha (2.97 acres)."));
  CHECK(holds(page, "3.07 t (3.39 short tons)"));
  CHECK(page.find("The answer") < page.find("The map"));
  CHECK(page.find("The map") < page.find("Site sheets"));
  CHECK(holds(page, "Planning use – not for navigation – not a survey"));
}

TEST_CASE("units are what the plan asks for", "[report]") {
  test::ReportFixture bay;
  bay.plan.report.units = ReportPlan::Units::metric;
  const std::string metric = report_of(bay);
  CHECK_FALSE(holds(metric, "acres"));
  CHECK(holds(metric, "1.20 ha"));
  bay.plan.report.units = ReportPlan::Units::us;
  const std::string us = report_of(bay);
  CHECK_FALSE(holds(us, "1.20 ha"));
  CHECK(holds(us, "2.97 acres"));
}

TEST_CASE("no site is an answer", "[report]") {
  test::ReportFixture bay;
  bay.sites.ranked.clear();
  bay.sites.apart.clear();
  bay.sites.notes = {"The water that is left is too shallow for 190 m by 63 m."};
  const std::string page = report_of(bay);
  CHECK(holds(page, "No place for a longline site of 1.20 ha (2.97 acres) was found."));
  CHECK(holds(page, "What closed or held back most of it: "));
  CHECK(holds(page, bay.sites.notes[0]));
  CHECK(holds(page, "What closed the water"));
  CHECK_FALSE(holds(page, "id=\"sheets\""));
  CHECK(holds(field_sheet_html(bay.data()), "No site was found"));
}

TEST_CASE("what is not known has closed nothing and held nothing back", "[report]") {
  test::ReportFixture bay;
  bay.sites.ranked.clear();
  bay.reason_texts.resize(reason::kFirstRuleUnknown + 1);
  const auto held_back = [&] {
    return inside(report_of(bay), "What closed or held back most of it: ", "</p>");
  };
  const std::string most = held_back();
  REQUIRE_FALSE(most.empty());
  for (const std::uint8_t code : {reason::kSlopeUnknown, reason::kFirstRuleUnknown}) {
    bay.reason_texts[code] = "this is not known";
    bay.counts.by_reason[code] = bay.counts.cells;
    CHECK(held_back() == most);
    bay.counts.by_reason[code] = 0;
  }
}

TEST_CASE("the page knows which reasons say that something is not known", "[report]") {
  test::ReportFixture bay;
  bay.reason_texts.resize(reason::kFirstRuleUnknown + 1);
  const auto unknown = map_data(report_of(bay))["unknown"].get<std::vector<std::size_t>>();
  CHECK(unknown == std::vector<std::size_t>{2, 3, 4, 5, 6, 7, 8, 9, 19, 96});
}

TEST_CASE("every site has its sheet with corners, sides, layout and cautions", "[report]") {
  const test::ReportFixture bay;
  const std::string page = report_of(bay);
  CHECK(times(page, "<article class=\"site-sheet\"") == 6);
  CHECK(times(page, "<footer class=\"cautions\">") == 4 * 6 + 3);  // four pages a sheet
  CHECK(holds(page, "id=\"site-S01\""));
  CHECK(holds(page, "id=\"site-A01\""));
  CHECK(holds(page, "Sides, computed from the corners as printed, on the WGS 84 ellipsoid"));
  CHECK(holds(page, "189.80 m (622.70 ft)"));
  CHECK(holds(page, "Depth at high water"));
  CHECK(holds(page, "7.3 to 8.1 m (24 to 27 ft)"));  // 5.2 to 6.0 at low water + 2.1
  CHECK(holds(page, "no rule given"));
  CHECK(holds(page, "harbour rules, section 4, March 2024"));
  CHECK(holds(page, "no spread is given in this run"));
}

TEST_CASE("what closed the water, by rule and share", "[report]") {
  test::ReportFixture bay;
  bay.counts.water = 1000;
  bay.counts.closed_by_bit.assign(32, 0);
  bay.counts.closed_by_bit[8] = 250;
  bay.counts.closed_only_by_bit.assign(32, 0);
  bay.counts.closed_only_by_bit[8] = 40;
  const std::string page = report_of(bay);
  const std::string row =
      page.substr(page.find("eelgrass beds, and 30 m (98 ft) around</th>"), 260);
  CHECK(holds(row, "25 %"));
  CHECK(holds(row, "10.0 ha"));  // 40 cells of 50 m
  CHECK(holds(row, "harbour rules"));
  CHECK_FALSE(holds(page, "mooring field</th><td class=\"n\">0"));  // a caution closes nothing
}

TEST_CASE("defaults in force are named with their basis", "[report]") {
  const test::ReportFixture bay;
  const std::string page = report_of(bay);
  CHECK(holds(page, "farm.line_gap_m"));
  CHECK(holds(page, "default, not verified; common practice, no source"));
  CHECK_FALSE(holds(page, "<th scope=\"row\">depth.file</th>"));
}

TEST_CASE("an absolute path of the plan is not told", "[report]") {
  test::ReportFixture bay;
  bay.plan.keys[0].value = "\"/home/someone/secret/depth.tif\"";
  const std::string page = report_of(bay);
  CHECK_FALSE(holds(page, "/home/someone"));
  CHECK(holds(page, "depth.tif"));
}

TEST_CASE("the map carries scale, north, legend and the values of every sample", "[report]") {
  const test::ReportFixture bay;
  const std::string page = report_of(bay);
  CHECK(times(page, "<button type=\"button\" data-map=") == 6);
  CHECK(holds(page, "class=\"scale-bar\" data-level=\"5\""));
  CHECK(holds(page, "rotate(1.97)"));
  CHECK(holds(page, "True north"));
  CHECK(holds(page, "not known: no data"));
  CHECK(holds(page, "30° 03.0′ W"));
  const nlohmann::json data = map_data(page);
  CHECK(data["cols"] == 60);
  CHECK(data["rows"] == 70);
  CHECK(data["corners"].size() == 4);
  for (const char* key : {"suitability", "yield", "nitrogen", "depth", "season", "reason",
                          "outplant", "last_haul", "closed"}) {
    CHECK(data["maps"].contains(key));
  }
}

TEST_CASE("the outlines of closed areas stand once for the map and once for the small ones",
          "[report]") {
  const test::ReportFixture bay;
  const std::string page = report_of(bay);
  for (const std::string id : {"closed-areas-0", "closed-small-areas-0"}) {
    CHECK(times(page, "<path id=\"" + id + "\" d=\"M") == 1);
    CHECK(times(page, "href=\"#" + id + "\"") >= 2);  // its white band and its edge
  }
  // Its first vertex in decimetres of the map, as the fixture has it.
  const XY first = bay.rules.front().features.front().shape.polygons.front().outer.front();
  const std::string d = inside(page, "<path id=\"closed-areas-0\" d=\"M", "l");
  CHECK(std::stod(d) == Approx(first.x - bay.grid().west).margin(0.051));
  CHECK(std::stod(d.substr(d.find(' '))) == Approx(bay.grid().north - first.y).margin(0.051));
}

TEST_CASE("the scale bar is true on the ground", "[report]") {
  // 60 columns of 50 m: the longest round bar under 0.2 of 3000 m of grid is 500 m of ground, drawn
  // 499.8 m long where the grid's scale is 0.9996.
  const test::ReportFixture bay;
  const std::string page = report_of(bay);
  const std::size_t bar = page.find("class=\"scale-bar\" data-level=\"0\"");
  const std::string part = page.substr(bar, 900);
  CHECK(holds(part, "width=\"249.90\""));
  CHECK(holds(part, ">500 m<"));
}

TEST_CASE("a page that would be too large thins its map and says so", "[report]") {
  const test::ReportFixture bay;
  class Heavy : public test::PngTwin {
   public:
    std::string png(int width, int height, std::span<const std::uint8_t> pixels) override {
      (void)PngTwin::png(width, height, pixels);
      return std::string(pixels.size() * 6, 'x');  // 17 MB of maps
    }
  };
  Heavy heavy;
  const test::ReportFixture large(700, 600, 10.0);
  const std::string page = report_html(large.data(), heavy);
  CHECK(map_data(page)["cols"].get<int>() < 700);
  CHECK(map_data(page)["sampled"] == true);
  CHECK(holds(page, "at each place the value of the nearest cell, not an average"));
  CHECK(map_data(report_of(bay))["sampled"] == false);
}

TEST_CASE("the twelve cautions stand in full once", "[report]") {
  const std::string page = report_of(test::ReportFixture());
  for (const std::string& caution : cautions()) {
    CHECK(times(page, html_escape(caution)) == 1);
  }
}

}  // namespace
}  // namespace tidelot
