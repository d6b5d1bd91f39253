// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <regex>

#include "report/sheets/ground.hpp"
#include "report/sheets/sheet.hpp"
#include "support/flat_earth.hpp"
#include "support/report_fixture.hpp"
#include "tidelot/report/sheets_pdf.hpp"
#include "tidelot/sites/gear.hpp"

using namespace tidelot;
using namespace tidelot::test;
using Catch::Contains;

namespace {

/// Degrees by the flat earth, as the fixture's.
class FixtureProjector : public Projector {
 public:
  void forward(std::span<XY> points) override {
    for (XY& p : points) {
      p = {-30.05 + (p.x - 501'500.0) / kMetresPerDegree,
           41.03 + (p.y - 4'538'250.0) / kMetresPerDegree};
    }
  }
  void inverse(std::span<XY>) override {}
  [[nodiscard]] std::unique_ptr<Projector> clone() const override {
    return std::make_unique<FixtureProjector>();
  }
  [[nodiscard]] const std::string& operation() const override { return none_; }

 private:
  std::string none_;
};

/// The fixture with gear, a season's dates and distances to the shore.
class Bay : public ReportFixture {
 public:
  Bay() {
    FixtureProjector projector;
    const FlatGeodesy geodesy;
    for (Site& site : sites.ranked) {
      site.gear =
          farm_gear(site, site.centre_xy, plan.farm, plan.report.marker_gap_m, projector, geodesy);
      site.shore = Shore{{420.0, 270.0}, false};
    }
  }
};

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
    ++n;
  }
  return n;
}

std::string why(const SheetSet& set, const std::string& title) {
  for (const SheetLeftOut& each : set.left_out) {
    if (each.title == title) {
      return each.why;
    }
  }
  return "";
}

}  // namespace

TEST_CASE("The set holds fourteen sheets, each numbered, with all that a sheet must have") {
  const Bay bay;
  const SheetSet set = sheets_html(bay.data());
  for (const SheetLeftOut& each : set.left_out) {
    CAPTURE(each.title, each.why);
    CHECK(false);
  }
  CHECK(set.sheets == 14);
  CHECK(count(set.html, "<section class=\"sheet\">") == 14);
  CHECK_THAT(set.html, Contains("Sheet 1 of 14") && Contains("Sheet 14 of 14"));
  CHECK(count(set.html, "class=\"north\"") >= 14);
  CHECK(count(set.html, "<g class=\"scale-bar\">") >= 14);
  CHECK(count(set.html, "Horizontal datum:") == 14);
  CHECK(count(set.html, "Vertical datum:") == 14);
  CHECK(count(set.html, "not a survey. The scale") == 14);
  CHECK_THAT(set.html, Contains("None was left out."));
}

TEST_CASE("The same bay gives the same bytes") {
  CHECK(sheets_html(Bay().data()).html == sheets_html(Bay().data()).html);
}

TEST_CASE("A sheet says what it lacks") {
  sheet::Sheet sheet;
  CHECK(sheet::lacks(sheet) == std::vector<std::string>{"a title", "a drawing", "a north arrow",
                                                        "a scale bar", "a horizontal datum",
                                                        "a vertical datum", "sources"});
  sheet.title = {"vicinity.title"};
  sheet.drawings = "<svg><g class=\"north\"></g><g class=\"scale-bar\"></g></svg>";
  sheet.horizontal_datum = "WGS 84";
  sheet.vertical_datum = "Unknown";
  sheet.sources = {"depth.tif: depth"};
  CHECK(sheet::lacks(sheet) == std::vector<std::string>{"a vertical datum"});
  sheet.vertical_datum = "MLLW";
  CHECK(sheet::lacks(sheet).empty());
  sheet.sources = {" "};
  CHECK(sheet::lacks(sheet) == std::vector<std::string>{"sources"});
}

TEST_CASE("Without a datum of the depths no sheet is written, and the page says why") {
  Bay bay;
  bay.plan.depth.datum = "unknown";
  const SheetSet set = sheets_html(bay.data());
  CHECK(set.sheets == 0);
  CHECK(set.left_out.size() == 14);
  CHECK(why(set, "Vicinity map") == "it lacks a vertical datum");
  CHECK_THAT(set.html, Contains("Not written: Vicinity map (it lacks a vertical datum)"));
  CHECK_THAT(set.html, Contains("closing alone"));
}

TEST_CASE("Without sites the sheets of a site are left out, the others stand") {
  Bay bay;
  bay.sites.ranked.clear();
  const SheetSet set = sheets_html(bay.data());
  CHECK(set.sheets == 6);
  CHECK(why(set, "Plan view") == "no site was found");
  CHECK(why(set, "Ranked sites") == "no site was found");
  CHECK_THAT(set.html, Contains("Sheet 6 of 6"));
}

TEST_CASE("Without rules there is nothing to draw uses from") {
  Bay bay;
  bay.rules.clear();
  bay.plan.closed.clear();
  for (Site& site : bay.sites.ranked) {
    site.rules.clear();
  }
  const SheetSet set = sheets_html(bay.data());
  CHECK_THAT(why(set, "Uses of the water"), Contains("names no [[closed]] or [[near]] layer"));
}

TEST_CASE("Rules go to the sheet that their name or their key says") {
  Bay bay;
  const auto data = bay.data();
  CHECK_THAT(sheet::habitat(data).notes, Contains("eelgrass beds") && !Contains("boat channel"));
  CHECK_THAT(sheet::uses(data).notes, Contains("boat channel") && !Contains("eelgrass beds"));
  bay.rules[1].plan.sheet = MapSheet::habitat;
  CHECK_THAT(sheet::habitat(bay.data()).notes, Contains("boat channel"));
}

TEST_CASE("Two sites have two plan views, and a box of one's own has its sheets") {
  Bay bay;
  bay.plan.report.sheet_sites = 2;
  CHECK(sheets_html(bay.data()).sheets == 14 + 7);
  bay.plan.report.sheet_sites = 0;
  bay.sites.ranked[3].own = 1;
  CHECK(sheet::chosen_sites(bay.data()).size() == 1);
}

TEST_CASE("Title block: applicant, date, paper") {
  Bay bay;
  bay.plan.report.date = "2026-06-14";
  const std::string html = sheets_html(bay.data()).html;
  CHECK(count(html, "<dd>2026-06-14</dd>") == 14);
  CHECK(count(html, "<dd>Heron Bight Growers</dd>") == 14);
  CHECK_THAT(html, Contains("size: letter") && Contains("class=\"letter\""));
  bay.plan.report.a4 = true;
  CHECK_THAT(sheets_html(bay.data()).html, Contains("size: A4") && Contains("class=\"a4\""));
}

TEST_CASE("Sheets speak the plan's labels; what is left out is told in English, too") {
  Bay bay;
  bay.plan.report.labels = Labels::from_text(
      "[vicinity]\ntitle = \"Lageplan\"\n[paper]\nsheet_of = \"Blatt {0} von {1}\"\n"
      "of_site = \"{0}, Platz {1}\"\nno_site_was_found = \"kein Platz\"\n"
      "[plan_view]\ntitle = \"Aufsicht\"\n[words]\nlang = \"de\"\n",
      "words.toml");
  const SheetSet set = sheets_html(bay.data());
  CHECK_THAT(set.html, Contains("<h2>Lageplan</h2>") && Contains("Blatt 2 von 14") &&
                           Contains("<h2>Aufsicht, Platz S01</h2>") && Contains("lang=\"de\""));
  bay.sites.ranked.clear();
  const SheetSet none = sheets_html(bay.data());
  CHECK_THAT(none.html, Contains("Not written: Aufsicht (kein Platz)"));
  CHECK(why(none, "Plan view") == "no site was found");
}

TEST_CASE("Names from outside cannot become markup, and nothing is asked of the network") {
  Bay bay;
  const std::string hostile = "<img src=x onerror=alert(1)>\"'&";
  bay.plan.title = bay.plan.report.applicant = bay.plan.report.waterbody = hostile;
  bay.plan.depth.datum = hostile;
  for (ClosedLayer& rule : bay.rules) {
    rule.plan.name = rule.plan.rule = hostile;
    for (Feature& feature : rule.features) {
      feature.status = hostile;
    }
  }
  bay.sites.ranked[0].limited_by = hostile;
  bay.sites.ranked[0].cautions = {hostile};
  bay.layers[0].file = hostile;
  const std::string html = sheets_html(bay.data()).html;
  CHECK(html.find("<img") == std::string::npos);
  CHECK(html.find("<script") == std::string::npos);
  CHECK(count(html, "http") == count(html, "http-equiv"));
  CHECK_THAT(html, Contains("default-src 'none'"));
}

TEST_CASE("The PDF: names of browsers, where they are looked for, addresses of files") {
  CHECK(program_on_path(std::array<std::string_view, 1>{"sh"}, "/nowhere::/bin") == "/bin/sh");
  CHECK(!program_on_path(std::array<std::string_view, 1>{"no-such-program"}, "/usr/bin:/bin"));
  CHECK(!program_on_path(sheet_browsers(), ""));
  CHECK(file_url("/a b/c#d%.html") == "file:///a%20b/c%23d%25.html");
}
