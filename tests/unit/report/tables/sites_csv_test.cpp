// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "report/site/site_figures.hpp"
#include "support/report_fixture.hpp"

namespace tidelot {
namespace {

/// Records of RFC 4180 text with LF line ends.
std::vector<std::vector<std::string>> records(const std::string& text) {
  std::vector<std::vector<std::string>> all(1, std::vector<std::string>(1));
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
      all.back().back() += text[i++];
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && c == ',') {
      all.back().emplace_back();
    } else if (!quoted && c == '\n') {
      all.emplace_back(1);
    } else {
      all.back().back() += c;
    }
  }
  all.pop_back();
  return all;
}

std::string cell(const std::vector<std::vector<std::string>>& all, std::size_t row,
                 const std::string& column) {
  for (std::size_t i = 0; i < all[0].size(); ++i) {
    if (all[0][i] == column) {
      return all[row][i];
    }
  }
  throw std::out_of_range(column);
}

TEST_CASE("the columns stand in their order, more to the right", "[report]") {
  const std::string wanted =
      "rank,name,lon,lat,area_ha,suitability,yield_t,yield_t_p10,yield_t_p90,nitrogen_kg,"
      "nitrogen_kg_p10,nitrogen_kg_p90,depth_min_m,depth_max_m,outplant,last_haul,harvests,line_m,"
      "bundles,landing_km,nearest_closed,nearest_closed_m,cautions,limited_by,corners,";
  const std::string text = sites_csv({}, Plan{});
  CHECK(text.rfind(wanted, 0) == 0);
  CHECK(text.find('\n') == text.size() - 1);
}

TEST_CASE("a row says what the site is", "[report]") {
  const test::ReportFixture bay;
  const std::string text = sites_csv(bay.sites.ranked, bay.plan);
  CHECK(text.find('\r') == std::string::npos);
  const auto all = records(text);
  REQUIRE(all.size() == 6);
  for (const auto& record : all) {
    CHECK(record.size() == all[0].size());
  }
  CHECK(cell(all, 1, "rank") == "1");
  CHECK(cell(all, 1, "name") == "S01");
  CHECK(cell(all, 1, "area_ha").size() == 6);
  CHECK(std::stod(cell(all, 1, "area_ha")) == Approx(1.2001).margin(0.001));
  CHECK(cell(all, 1, "yield_t_p10").empty());
  CHECK(cell(all, 1, "yield_t_p90").empty());
  CHECK(cell(all, 1, "nitrogen_kg_p10").empty());
  CHECK(cell(all, 1, "nitrogen_kg_p90").empty());
  CHECK(cell(all, 1, "outplant") == "05-14");
  CHECK(cell(all, 1, "last_haul") == "10-23");
  CHECK(cell(all, 1, "limited_by") == "growth held back by: nitrogen");
  CHECK(cell(all, 1, "apart").empty());
}

TEST_CASE("figures with and without the draw-down stand apart, and which is which is said",
          "[report]") {
  Site site;
  site.name = "S01";
  site.yield_t = site.yield_without_t = 5.0;
  site.nitrogen_kg = site.nitrogen_without_kg = 20.0;
  site.no_draw_down = "not computed for this crop";
  auto all = records(sites_csv(std::vector{site}, Plan{}));
  CHECK(cell(all, 1, "draw_down") == "not counted: not computed for this crop");
  CHECK(cell(all, 1, "yield_t") == "5.0000");
  site.draw_down = DrawDown{};
  site.yield_t = 4.0;
  site.nitrogen_kg = 15.0;
  all = records(sites_csv(std::vector{site}, Plan{}));
  CHECK(cell(all, 1, "draw_down") == "counted");
  CHECK(cell(all, 1, "yield_t") == "4.0000");
  CHECK(cell(all, 1, "yield_without_t") == "5.0000");
  CHECK(cell(all, 1, "nitrogen_kg") == "15.000");
  CHECK(cell(all, 1, "nitrogen_without_kg") == "20.000");
}

TEST_CASE("figures with the neighbours stand to the right, with their names; empty where none",
          "[report]") {
  Site site;
  site.name = "S01";
  auto all = records(sites_csv(std::vector{site}, Plan{}));
  CHECK(cell(all, 1, "yield_with_neighbours_t").empty());
  CHECK(cell(all, 1, "neighbours").empty());
  site.with_neighbours = WithNeighbours{3.5, 14.25, {"S02", "S05"}};
  all = records(sites_csv(std::vector{site}, Plan{}));
  CHECK(cell(all, 1, "yield_with_neighbours_t") == "3.5000");
  CHECK(cell(all, 1, "nitrogen_with_neighbours_kg") == "14.250");
  CHECK(cell(all, 1, "neighbours") == "S02; S05");
}

TEST_CASE("what neighbours take is said in a sentence, and the sum over the sites", "[report]") {
  const auto metric = ReportPlan::Units::metric;
  Site one;
  one.name = "S01";
  one.yield_t = 4.0;
  one.nitrogen_kg = 15.0;
  CHECK(page::neighbour_sentence(one, metric).empty());
  CHECK(page::together_sentence(std::vector{one}, metric).empty());
  one.with_neighbours = WithNeighbours{4.0, 15.0, {}};
  CHECK_THAT(page::neighbour_sentence(one, metric), Catch::Contains("the same"));
  Site other = one;
  other.with_neighbours = WithNeighbours{3.6, 12.0, {"S01"}};
  CHECK_THAT(page::neighbour_sentence(other, metric),
             Catch::Contains("20 % less nitrogen") && Catch::Contains("passed S01"));
  const page::SumOfSites sum = page::sum_of(std::vector{one, other});
  CHECK(sum.nitrogen_kg == Approx(30.0));
  CHECK(sum.nitrogen_together_kg == Approx(27.0));
  CHECK(sum.yield_together_t == Approx(7.6));
}

TEST_CASE("the nearest closed area is one that closes, not a caution", "[report]") {
  const test::ReportFixture bay;
  const auto all = records(sites_csv(bay.sites.ranked, bay.plan));
  CHECK(cell(all, 1, "nearest_closed") == "boat channel");
  CHECK(cell(all, 1, "nearest_closed_m") == "240.0");
}

TEST_CASE("four corners, longitude first, not repeated", "[report]") {
  const test::ReportFixture bay;
  Site site = bay.sites.ranked[0];
  site.corners = {{{-30.1, 41.0}, {-30.0, 41.0}, {-30.0, 40.9}, {-30.1234567, 40.9}}};
  const auto all = records(sites_csv(std::vector{site}, bay.plan));
  CHECK(cell(all, 1, "corners") ==
        "-30.100000 41.000000;-30.000000 41.000000;-30.000000 40.900000;-30.123457 40.900000");
}

TEST_CASE("text that a spreadsheet would run gets an apostrophe", "[report]") {
  test::ReportFixture bay;
  Site site = bay.sites.ranked[0];
  for (const std::string start : {"=", "+", "-", "@", "\t", "\r"}) {
    bay.plan.closed[1].name = start + "HYPERLINK(\"x\",\"y\")";
    site.cautions = {start + "1+1", "second"};
    const auto all = records(sites_csv(std::vector{site}, bay.plan));
    CHECK(cell(all, 1, "nearest_closed") == "'" + start + "HYPERLINK(\"x\",\"y\")");
    CHECK(cell(all, 1, "cautions") == "'" + start + "1+1; second");
    CHECK(cell(all, 1, "lon").front() == '-');  // numbers keep their minus
  }
}

TEST_CASE("commas, quotes, line ends and four-byte letters survive", "[report]") {
  test::ReportFixture bay;
  bay.plan.closed[1].name = "the \"old\", deep\nchannel \xF0\x9F\x8C\x8A";
  const auto all = records(sites_csv(bay.sites.ranked, bay.plan));
  REQUIRE(all.size() == 6);
  CHECK(cell(all, 1, "nearest_closed") == bay.plan.closed[1].name);
}

TEST_CASE("nothing known leaves cells empty", "[report]") {
  test::ReportFixture bay;
  Site site = bay.sites.apart[0];
  site.depth_min_m = std::nan("");
  site.suitability = std::nan("");
  site.landing_km.reset();
  site.rules.clear();
  site.outplant = 0;
  const auto all = records(sites_csv(std::vector{site}, bay.plan));
  for (const char* column : {"rank", "depth_min_m", "suitability", "landing_km", "nearest_closed",
                             "nearest_closed_m", "outplant"}) {
    CHECK(cell(all, 1, column).empty());
  }
  CHECK(cell(all, 1, "apart") == "not known over 31 % of it");
}

}  // namespace
}  // namespace tidelot
