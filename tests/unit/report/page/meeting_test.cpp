// SPDX-License-Identifier: Apache-2.0
#include "report/page/meeting.hpp"

#include <catch2/catch.hpp>

#include "report/parts.hpp"
#include "report/words/say.hpp"
#include "support/report_fixture.hpp"

using namespace tidelot;
using Catch::Contains;

namespace {

constexpr const char* kRoom = "<span class=\"line\">&nbsp;</span>";

/// The fixture's first site with what a run adds to it: gear, shore, landing, rules.
struct Asked : test::ReportFixture {
  Asked() {
    Site& site = sites.ranked[0];
    site.shore = Shore{{412.0, 270.0}, false};
    site.landing_km = 2.07;
    site.gear.markers.resize(7);
    for (std::size_t i = 0; i < site.gear.markers.size(); ++i) {
      site.gear.markers[i].kind = i < 4 ? Marker::Kind::corner : Marker::Kind::intermediate;
    }
    site.layout.lines = 6;
    site.rules = {rule(1, 51.0), rule(0, 179.0), rule(2, 900.0)};
  }
  static RuleDistance rule(int index, double m) {
    RuleDistance out;
    out.rule = index;
    out.distance_m = m;
    out.bearing_deg = 90.0;
    return out;
  }
  [[nodiscard]] std::string to(const std::string& question) const {
    for (const auto& [asked, answer] : page::meeting_questions(sites.ranked[0], data())) {
      if (asked == question) {
        return answer;
      }
    }
    FAIL("nobody asks: " + question);
    return "";
  }
};

}  // namespace

TEST_CASE("What the run knows is answered in figures") {
  const Asked bay;
  CHECK(bay.to("How far from the shore?") ==
        "412 m (0.26 miles) from the site&#39;s edge, true bearing 270°.");
  CHECK(bay.to("How far from the channel?") ==
        "boat channel: 51 m (167 ft) from the site&#39;s edge, true bearing 090°.");
  CHECK_THAT(bay.to("How far from moorings?"), Contains("mooring field: 900 m"));
  CHECK_THAT(bay.to("Nearest dock?"), Contains("2.07 km (1.29 miles) over water"));
  CHECK_THAT(bay.to("How many buoys, what colour, how high?"),
             Contains("4 corner markers, 3 between them, 12 end buoys"));
  CHECK_THAT(bay.to("Is there eelgrass?"),
             Contains("eelgrass beds: 179 m") && Contains("Nobody has cleared the site"));
}

TEST_CASE("What it does not know is said, with who must say it and room to write") {
  Asked bay;
  for (const char* question : {"Who is called, day and night?", "What if it breaks loose?"}) {
    CHECK_THAT(bay.to(question), Contains("The applicant says") && Contains("class=\"line long\""));
  }
  CHECK_THAT(bay.to("What bottom?"), Contains("Not in the layers.") && Contains(kRoom));
  CHECK_THAT(bay.to("How many farms are here already?"),
             Contains("No layer of the plan is named leases or farms.") && Contains(kRoom));
  CHECK_THAT(bay.to("May one still fish, sail, anchor, swim, dig?"),
             Contains("6 lines float 1.0 m (3 ft) below the surface") &&
                 Contains("the authority says: fish " + std::string(kRoom)));
  bay.sites.ranked[0].shore.reset();
  bay.sites.ranked[0].landing_km.reset();
  bay.sites.ranked[0].rules.clear();
  CHECK_THAT(bay.to("How far from the shore?"), Contains("The map shows no land."));
  CHECK_THAT(bay.to("Nearest dock?"), Contains("The plan names no landing."));
  CHECK_THAT(bay.to("How far from the channel?"),
             Contains("No layer of the plan is named a channel. The harbormaster says: "));
}

TEST_CASE("When it is gone: the permit window where the plan has one, else room for it") {
  Asked bay;
  bay.sites.ranked[0].last_haul = 290;  // 17 October
  CHECK_THAT(bay.to("When is it gone?"),
             Contains("Last haul about 17 October. The plan gives no date") && Contains(kRoom));
  bay.plan.season.gear_out = 319;
  CHECK(bay.to("When is it gone?") ==
        "Last haul about 17 October; all gear out by 15 November, the plan&#39;s permit window.");
}

TEST_CASE("Farms are counted in the plan's layer and by its tests of what lies near") {
  Asked bay;
  bay.plan.closed[2].name = bay.rules[2].plan.name = "Shellfish LEASES <b>";
  bay.rules[2].features.resize(3);
  NearPlan near;
  near.name = "other farms";
  near.distance_m = 305.0;
  bay.plan.near = {near};
  bay.sites.ranked[0].near = {{0, 2, true, 120.0, 45.0}};
  CHECK(bay.to("How many farms are here already?") ==
        "3 in the plan&#39;s layer. Shellfish LEASES &lt;b&gt;: 900 m (0.56 miles) from the "
        "site&#39;s edge, true bearing 090°. other farms: 2 within 305.0 m (1001 ft).");
  bay.sites.ranked[0].rules[2].distance_m = 0.0;
  CHECK_THAT(bay.to("How many farms are here already?"), Contains("the site touches it."));
}

TEST_CASE("A translation names the layers in its own words") {
  Asked bay;
  bay.plan.closed[1].name = "Fahrwasser Ost";
  CHECK_THAT(bay.to("How far from the channel?"), Contains("No layer of the plan"));
  const auto german =
      Labels::from_text("[meeting]\nwords_channel = \"fahrrinne, FAHRWASSER\"\n", "words.toml");
  const page::Speaking speaking(*german);
  CHECK_THAT(bay.to("How far from the channel?"), Contains("Fahrwasser Ost: 51 m"));
}

TEST_CASE("Every site sheet of the report holds the questions") {
  const Asked bay;
  const std::string page = page::site_sheets(bay.data());
  std::size_t tables = 0;
  for (std::size_t at = page.find("Questions of a meeting"); at != std::string::npos;
       at = page.find("Questions of a meeting", at + 1)) {
    ++tables;
  }
  CHECK(tables == bay.sites.ranked.size() + bay.sites.apart.size());
}
