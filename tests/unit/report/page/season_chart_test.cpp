// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <string>

#include "report/parts.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"

using namespace tidelot;

namespace {

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

/// 20 May to 18 June, cut on the 14th day and hauled on the last.
Site site_with_season() {
  SiteSeason season;
  season.window = {SeasonState::grows, 140, 169};
  season.water = {SeasonState::grows, 143, 300};
  SeasonMonth may;
  may.month = 4;
  may.first = 140;
  may.days = 12;
  may.limit = Limit::cold;
  SeasonMonth june = may;
  june.month = 5;
  june.first = 152;
  june.days = 18;
  june.limit = Limit::nitrogen;
  season.months = {may, june};
  season.beyond.too_fresh = 3;
  season.harvests = {{13, 180.0}, {29, 240.0}};
  for (int day = 0; day < 30; ++day) {
    season.biomass_g_per_m.push_back(100.0 + 13.0 * (day % 14));
    season.tissue_n.push_back(0.03);
  }
  Site site;
  site.season = season;
  return site;
}

}  // namespace

TEST_CASE("a site without a season has no chart", "[report]") {
  Site site;
  CHECK(page::season_chart(site, Plan{}).empty());
  site.season = SiteSeason{};
  CHECK(page::season_chart(site, Plan{}).empty());
}

TEST_CASE("the chart draws both curves, every harvest and every month", "[report]") {
  const std::string chart = page::season_chart(site_with_season(), Plan{});
  CHECK(times(chart, "class=\"weight\"") == 1);
  CHECK(times(chart, "class=\"nitrogen\"") == 1);
  CHECK(times(chart, "class=\"haul\"") == 2);
  CHECK(times(chart, "class=\"month\"") == 2);
  CHECK(chart.find(">cold</text>") != std::string::npos);
  CHECK(chart.find(">nitrogen</text>") != std::string::npos);
  CHECK(chart.find("g per m of longline") != std::string::npos);
  CHECK(chart.find("% of dry weight") != std::string::npos);
}

TEST_CASE("the caption says in words what the drawing shows", "[report]") {
  const std::string chart = page::season_chart(site_with_season(), Plan{});
  CHECK(chart.find("May cold; Jun nitrogen") != std::string::npos);
  CHECK(chart.find("3 too fresh") != std::string::npos);
  CHECK(chart.find("2 harvests") != std::string::npos);
  CHECK(chart.find("23 May to 27 October") != std::string::npos);
  CHECK(chart.find("20 May to 18 June") != std::string::npos);
}

TEST_CASE("axes end at round numbers above the highest day", "[report]") {
  // highest weight 269 g per m, nitrogen 3 %
  const std::string chart = page::season_chart(site_with_season(), Plan{});
  CHECK(chart.find(">300</text>") != std::string::npos);
  CHECK(chart.find(">150</text>") != std::string::npos);
  CHECK(chart.find(">3</text>") != std::string::npos);
  CHECK(chart.find("nan") == std::string::npos);
}

TEST_CASE("a month too short for its word shows the first letter", "[report]") {
  Site site = site_with_season();
  site.season->months[0].days = 1;
  const std::string chart = page::season_chart(site, Plan{});
  CHECK(chart.find(">c</text>") != std::string::npos);
  CHECK(chart.find(">cold</text>") == std::string::npos);
}

TEST_CASE("a first letter of two bytes stays whole", "[report]") {
  Site site = site_with_season();
  site.season->months[0].days = 1;
  const auto cold = Labels::from_text("[reason]\ncold = \"ärmlich\"\n", "words.toml");
  const page::Speaking speaking(*cold);
  const std::string chart = page::season_chart(site, Plan{});
  CHECK(chart.find(">ä</text>") != std::string::npos);
  CHECK(is_utf8(chart));
}
