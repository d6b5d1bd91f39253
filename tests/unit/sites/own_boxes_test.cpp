// SPDX-License-Identifier: Apache-2.0
#include "sites/own_boxes.hpp"

#include <boost/geometry.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "support/scored_bay.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/sites/site_search.hpp"

using namespace tidelot;
using tidelot::test::ScoredBay;
namespace bg = boost::geometry;

namespace {

using Point = bg::model::d2::point_xy<double>;
using Ring = bg::model::polygon<Point>;
using Corners = std::array<XY, 4>;

Ring ring_of(std::span<const XY> path) {
  Ring ring;
  for (const XY p : path) {
    bg::append(ring.outer(), Point(p.x, p.y));
  }
  bg::correct(ring);
  return ring;
}

double common_area(const Ring& a, const Ring& b) {
  std::vector<Ring> parts;
  bg::intersection(a, b, parts);
  double area = 0.0;
  for (const Ring& part : parts) {
    area += std::abs(bg::area(part));
  }
  return area;
}

/// Adds a box of the plan's own, given on the grid.
void add_own(ScoredBay& bay, const Corners& corners) {
  std::array<LonLat, 4> box{};
  const double metres = test::kMetresPerDegree * bay.scale;
  std::transform(corners.begin(), corners.end(), box.begin(), [&](XY p) {
    return LonLat{p.x / metres, p.y / metres};
  });
  bay.plan.sites.own_boxes.push_back(box);
}

/// Upright, 200 x 80 m, from its lower left corner. On the bays below that lies on whole cells.
Corners upright(double x, double y, double length = 200.0, double width = 80.0) {
  return {XY{x, y}, XY{x, y + width}, XY{x + length, y + width}, XY{x + length, y}};
}

ScoredBay even_bay() {
  ScoredBay bay(80, 60, 10.0);  // 1000 to 1800 east, 4400 to 5000 north
  bay.plan.sites.count = 2;
  bay.plan.sites.gap_m = 40.0;
  return bay;
}

ScoredBay rough_bay(unsigned seed) {
  ScoredBay bay = even_bay();
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> unit(0.0F, 1.0F);
  for (std::size_t i = 0; i < bay.grid.size(); ++i) {
    bay.suitability[i] = 0.31F + 0.6F * unit(random);
    bay.yield[i] = 0.5F + 2.0F * unit(random);
    bay.nitrogen[i] = 3.0F * bay.yield[i];
    bay.depth[i] = 4.0F + 3.0F * unit(random);
  }
  return bay;
}

/// The one own box of a bay, ranked or apart.
const Site& own_of(const SitesResult& result, int number = 1) {
  for (const std::vector<Site>* list : {&result.ranked, &result.apart}) {
    for (const Site& site : *list) {
      if (site.own == number) {
        return site;
      }
    }
  }
  throw std::logic_error("no such box");
}

std::vector<std::string> wrong_with(const ScoredBay& bay) { return own_of(bay.place()).wrong; }

using Phrases = std::vector<std::string>;

}  // namespace

TEST_CASE("a box where the search finds a site gets that site's figures") {
  for (const double scale : {1.0, 1.25}) {
    ScoredBay bay = rough_bay(1);
    bay.scale = scale;
    const SitesResult plain = bay.place();
    for (std::size_t i = 0; i < plain.ranked.size(); ++i) {
      const Site& found = plain.ranked[i];
      ScoredBay again = bay;
      add_own(again, found.corners_xy);
      const SitesResult result = again.place();
      const Site& own = own_of(result);
      CHECK(own.wrong.empty());
      CHECK(own.name == "OWN1");
      CHECK(own.score == Approx(found.score).epsilon(1e-6));
      CHECK(own.suitability == Approx(found.suitability).epsilon(1e-6));
      CHECK(own.size.length_m == Approx(found.size.length_m).epsilon(1e-6));
      CHECK(own.size.width_m == Approx(found.size.width_m).epsilon(1e-6));
      CHECK(std::abs(std::sin((own.angle_deg - found.angle_deg) * M_PI / 180.0)) < 1e-6);
      CHECK(own.layout.lines == found.layout.lines);
      CHECK(own.layout.line_m == Approx(found.layout.line_m).epsilon(1e-6));
      CHECK(own.yield_t == Approx(found.yield_t).epsilon(1e-6));
      CHECK(own.nitrogen_kg == Approx(found.nitrogen_kg).epsilon(1e-6));
      CHECK(own.depth_max_m == found.depth_max_m);
      CHECK(own.cells == found.cells);
      CHECK(own.corners == found.corners);
      CHECK(own.centre == found.centre);
      CHECK(own.area_ha == found.area_ha);
      CHECK(own.limited_by == found.limited_by);
      REQUIRE(own.gear.lines.size() == found.gear.lines.size());
      CHECK(std::abs(own.gear.middle.x - found.gear.middle.x) < 1e-4);
    }
  }
}

TEST_CASE("printed corners of a site are a box that may lie there, too") {
  for (unsigned seed = 1; seed <= 8; ++seed) {
    ScoredBay bay = rough_bay(seed);
    bay.add_rule("eelgrass beds",
                 Shape{{{{{1300, 4900}, {1420, 4650}, {1500, 4880}, {1300, 4900}}, {}}}, {}, {}},
                 17.0);
    bay.add_near("other licences", {{1700, 4500}}, 70.0, 0, true);
    for (int i = 0; i < 40; ++i) {
      bay.suitability[(seed * 7919U + static_cast<std::size_t>(i) * 104729U) % bay.grid.size()] =
          0.2F;
    }
    bay.plan.sites.count = 4;
    bay.plan.sites.area_ha = 0.6;
    bay.plan.farm.margin_m = 5.0;
    bay.plan.farm.scope = 2.0;
    const SitesResult plain = bay.place();
    REQUIRE(!plain.ranked.empty());
    ScoredBay again = bay;
    for (const Site& site : plain.ranked) {
      again.plan.sites.own_boxes.push_back(site.corners);
    }
    const SitesResult result = again.place();
    for (std::size_t i = 0; i < plain.ranked.size(); ++i) {
      CAPTURE(seed, i);
      CHECK(own_of(result, static_cast<int>(i) + 1).wrong == Phrases{});
    }
  }
}

TEST_CASE("a box of any shape is scored by the cells under it, as an overlay says") {
  const ScoredBay plain = rough_bay(5);
  const std::vector<Corners> boxes{
      {XY{1203.1, 4507.7}, XY{1218.4, 4611.9}, XY{1397.3, 4589.2}, XY{1455.8, 4521.5}},
      {XY{1455.0, 4720.0}, XY{1555.0, 4820.0}, XY{1655.0, 4720.0}, XY{1555.0, 4620.0}},
      {XY{1101.0, 4951.0}, XY{1320.0, 4958.0}, XY{1290.0, 4860.0}, XY{1134.0, 4840.0}}};
  for (const Corners& corners : boxes) {
    ScoredBay bay = plain;
    add_own(bay, corners);
    const Site site = own_of(bay.place());
    const Ring ring = ring_of(corners);
    double score = 0.0, suitability = 0.0, yield = 0.0, deepest = 0.0;
    for (int row = 0; row < bay.grid.rows; ++row) {
      for (int col = 0; col < bay.grid.cols; ++col) {
        const XY c = bay.grid.centre(col, row);
        const std::size_t i = bay.grid.index(col, row);
        const Corners cell{XY{c.x - 5, c.y - 5}, XY{c.x + 5, c.y - 5}, XY{c.x + 5, c.y + 5},
                           XY{c.x - 5, c.y + 5}};
        const double share = common_area(ring, ring_of(cell)) / 100.0;
        score +=
            share * static_cast<double>(bay.suitability[i]) * static_cast<double>(bay.yield[i]);
        suitability += share * static_cast<double>(bay.suitability[i]);
        yield += share * static_cast<double>(bay.yield[i]);
        if (bg::within(Point(c.x, c.y), ring)) {
          deepest = std::max(deepest, static_cast<double>(bay.depth[i]));
        }
      }
    }
    const double cells = bg::area(ring) / 100.0;
    CHECK(site.wrong == Phrases{});
    CHECK(site.score == Approx(score).epsilon(1e-5));
    CHECK(site.suitability == Approx(suitability / cells).epsilon(1e-6));
    CHECK(site.yield_kg_per_m == Approx(yield / cells).epsilon(1e-6));
    CHECK(site.depth_max_m == Approx(deepest));
    CHECK(site.area_unrounded_ha == Approx(bg::area(ring) / 1e4).epsilon(1e-9));
    // The gear: lines of the box's inner rectangle, all of it a margin inside of the boundary.
    CHECK(site.layout.line_m ==
          Approx(site.layout.lines * (site.size.length_m - 30.0 - 6.0 * (deepest + 2.1))));
    for (const GearLine& line : site.gear.lines) {
      for (const GearPoint& anchor : line.anchors) {
        const Point at(anchor.xy.x, anchor.xy.y);
        CHECK(bg::within(at, ring));
        CHECK(bg::distance(at, bg::model::linestring<Point>(ring.outer().begin(),
                                                            ring.outer().end())) > 15.0 - 1e-6);
      }
    }
  }
}

TEST_CASE("sites keep the gap to a box that is ranked and none to one that is not") {
  ScoredBay bay = even_bay();
  bay.plan.sites.count = 4;
  add_own(bay, upright(1300, 4660));
  const SitesResult result = bay.place();
  REQUIRE(own_of(result).wrong.empty());
  CHECK(result.ranked.size() == 5);  // count says how many are found
  const Ring own = ring_of(upright(1300, 4660));
  for (const Site& site : result.ranked) {
    if (site.own == 0) {
      CHECK(bg::distance(ring_of(site.corners_xy), own) >= 40.0 - 1e-5);
    }
  }
  ScoredBay narrow = even_bay();  // room for one site alone
  for (int row = 0; row < 60; ++row) {
    for (int col = 0; col < 80; ++col) {
      if (row >= 10 || col >= 25) {
        narrow.set_land(narrow.grid.index(col, row));
      }
    }
  }
  const SitesResult alone = narrow.place();
  REQUIRE(alone.ranked.size() == 1);
  add_own(narrow, upright(1060, 4900));  // beyond the last open column
  const SitesResult beside = narrow.place();
  CHECK(own_of(beside).wrong == Phrases{"land at low water over 5 % of it"});
  REQUIRE(beside.ranked.size() == 1);
  CHECK(beside.ranked[0].corners == alone.ranked[0].corners);
  narrow.plan.sites.own_boxes.clear();
  add_own(narrow, upright(1040, 4910));
  const SitesResult instead = narrow.place();
  REQUIRE(instead.ranked.size() == 1);
  CHECK(instead.ranked[0].name == "OWN1");
}

TEST_CASE("boxes and sites are ranked together by their scores, and named by rank or number") {
  ScoredBay bay = even_bay();
  for (int row = 0; row < 60; ++row) {
    for (int col = 0; col < 80; ++col) {
      bay.yield[bay.grid.index(col, row)] = row < 20 ? 3.0F : 2.0F;  // better in the north
    }
  }
  add_own(bay, upright(1100, 4500));               // 1.6 ha in the south
  add_own(bay, upright(1500, 4500, 150.0, 60.0));  // 0.9 ha
  const SitesResult result = bay.place();
  REQUIRE(result.ranked.size() == 4);
  std::vector<std::string> names;
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(result.ranked[i].rank == static_cast<int>(i) + 1);
    names.push_back(result.ranked[i].name);
  }
  // Scores a cell: 2.4 in the north, 1.6 in the south; of 120, 160 and 90 cells.
  CHECK(names == std::vector<std::string>{"S01", "S02", "OWN1", "OWN2"});
  CHECK(own_of(result, 1).score == Approx(256.0).epsilon(1e-5));
  CHECK(own_of(result, 2).score == Approx(144.0).epsilon(1e-5));
  CHECK(result.notes == std::vector<std::string>{"Your own box OWN1 ranks 3 of 4.",
                                                 "Your own box OWN2 ranks 4 of 4."});
  bay.plan.sites.own_boxes.clear();
  add_own(bay, upright(1100, 4850, 300.0, 100.0));
  CHECK(bay.place().ranked[0].name == "OWN1");
  CHECK(bay.place().ranked[1].name == "S02");
}

TEST_CASE("a box keeps its corners as given, in order clockwise from the north-most") {
  ScoredBay bay = even_bay();
  bay.plan.sites.own_boxes = {{LonLat{0.0134567891, 0.0465}, LonLat{0.0110000004, 0.0470000006},
                               LonLat{0.011, 0.0461}, LonLat{0.0133, 0.0458}}};
  const Site site = own_of(bay.place());
  CHECK(site.corners == std::array<LonLat, 4>{LonLat{0.011, 0.047}, LonLat{0.013457, 0.0465},
                                              LonLat{0.0133, 0.0458}, LonLat{0.011, 0.0461}});
}

TEST_CASE("what forbids a box is named, and the box is listed apart before the rest") {
  ScoredBay bay = even_bay();
  add_own(bay, upright(1200, 4600));  // columns 20 to 39, rows 32 to 39: 160 cells
  const auto at = [&](int col, int row) { return bay.grid.index(col, row); };
  SECTION("nothing") { CHECK(wrong_with(bay) == Phrases{}); }
  SECTION("land, and what closes the water") {
    bay.plan.closed.push_back({});
    bay.plan.closed[0].name = "cable";
    for (int i = 0; i < 8; ++i) {
      bay.set_closed(at(20 + i, 33));
      bay.set_land(at(20 + i, 34));
      bay.set_land(at(20 + i, 35));
      bay.closed[at(20 + i, 36)] = 1U << closed_bit::kTooShallow;
    }
    CHECK(wrong_with(bay) ==
          Phrases{"land at low water over 10 % of it",
                  "too shallow: gear would ground at the lowest tides over 5 % of it",
                  "closed by cable over 5 % of it"});
    const SitesResult result = bay.place();
    REQUIRE(!result.apart.empty());
    CHECK(result.apart[0].name == "OWN1");
    CHECK(result.notes.at(1) ==
          "Your own box OWN1 is listed apart: too shallow: gear would ground at the lowest tides "
          "over 5 % of it.");
    CHECK(result.ranked.size() == 2);
  }
  SECTION("two rules over one cell") {
    bay.plan.closed.assign(2, {});
    bay.plan.closed[0].name = "cable";
    bay.plan.closed[1].name = "lane";
    bay.closed[at(20, 33)] = 3U << closed_bit::kFirstRule;
    CHECK(wrong_with(bay) ==
          Phrases{"closed by cable over 1 % of it", "closed by lane over 1 % of it"});
  }
  SECTION("poor water") {
    for (int i = 0; i < 16; ++i) {
      bay.suitability[at(20 + i, 38)] = 0.29F;
    }
    CHECK(wrong_with(bay) == Phrases{"suitability below 0.3 over 10 % of it"});
  }
  SECTION("too short for its depth") {
    for (int i = 0; i < 4; ++i) {
      bay.depth[at(20 + i, 38)] = 27.0F;  // 200 - 30 - 6 x 29.1 < 0
    }
    CHECK(wrong_with(bay) ==
          Phrases{"too short for its depth over 3 % of it: the anchor legs leave no line"});
  }
  SECTION("not known") {
    for (int i = 0; i < 16; ++i) {
      bay.set_depth_unknown(at(20 + i, 38));
      bay.set_salinity_unknown(at(20 + i, 37));
    }
    CHECK(wrong_with(bay) == Phrases{"depth not known over 10 % of it"});
    for (int i = 0; i < 16; ++i) {
      bay.set_salinity_unknown(at(20 + i, 36));
    }
    CHECK(wrong_with(bay) ==
          Phrases{"depth not known over 10 % of it", "water not fully known over 20 % of it"});
  }
  SECTION("a setback to the true edge, where no cell under it is closed") {
    // Cells whose centre lies within 17 m are closed: up to 1183 + 17 = 1200, no cell of the box.
    bay.add_rule("eelgrass beds", Shape{{}, {}, {{1194.0, 4640.0}}}, 17.0);
    for (std::size_t i = 0; i < bay.grid.size(); ++i) {
      bay.closed[i] = 0;
      bay.suitability[i] = 0.8F;
    }
    const Phrases wrong = wrong_with(bay);
    REQUIRE(wrong.size() == 1);
    CHECK(wrong[0] == "within the setback of eelgrass beds by 11.0 m");  // 17 - 6, less 0.08
  }
  SECTION("more near it than a test allows") {
    bay.add_near("other licences", {{1410.0, 4640.0}, {1420.0, 4640.0}, {1460.0, 4640.0}}, 30.0, 1,
                 true);
    CHECK(wrong_with(bay) == Phrases{"2 within 30 m of: other licences (at most 1)"});
  }
  SECTION("no room inside the margins") {
    bay.plan.sites.own_boxes.clear();
    add_own(bay, upright(1200, 4600, 200.0, 29.0));
    CHECK(wrong_with(bay) == Phrases{"no room for a line inside margins of 15 m"});
    bay.plan.sites.line = true;  // one line needs no room to its sides
    CHECK(wrong_with(bay) == Phrases{});
    CHECK(own_of(bay.place()).layout.lines == 1);
  }
  SECTION("a crop that would be lost") {
    bay.yield.assign(bay.grid.size(), -0.1F);
    CHECK(wrong_with(bay) == Phrases{"it would yield nothing"});
  }
  SECTION("nothing but land") {
    for (std::size_t i = 0; i < bay.grid.size(); ++i) {
      bay.set_land(i);
      bay.depth[i] = std::nanf("");
    }
    const Site site = own_of(bay.place());
    CHECK(site.wrong == Phrases{"land at low water over 100 % of it"});
    CHECK(std::isnan(site.depth_max_m));
    CHECK(site.layout.lines == 0);
    CHECK(site.layout.line_m == 0.0);
  }
}

TEST_CASE("boxes that overlap, or come within the gap of each other, are all listed apart") {
  ScoredBay bay = even_bay();
  add_own(bay, upright(1100, 4600));
  add_own(bay, upright(1290, 4600));  // overlaps the first
  add_own(bay, upright(1100, 4719));  // 39 m north of the first
  add_own(bay, upright(1560, 4840));  // far from all
  const SitesResult result = bay.place();
  CHECK(own_of(result, 1).wrong == Phrases{"overlaps OWN2", "nearer than 40 m to OWN3"});
  CHECK(own_of(result, 2).wrong == Phrases{"overlaps OWN1", "nearer than 40 m to OWN3"});
  CHECK(own_of(result, 3).wrong == Phrases{"nearer than 40 m to OWN1", "nearer than 40 m to OWN2"});
  CHECK(own_of(result, 4).wrong == Phrases{});
  REQUIRE(result.apart.size() == 3);
  CHECK(result.apart[2].name == "OWN3");
}

TEST_CASE("a box that leaves the grid is refused") {
  ScoredBay bay = even_bay();
  add_own(bay, upright(1650, 4600));
  try {
    static_cast<void>(bay.place());
    FAIL_CHECK("passed");
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::plan);
    CHECK(std::string(error.what()) ==
          "sites.own_corners: box 1 lies beyond the area of the plan; move it, or widen the area");
  }
}

TEST_CASE("what the search finds beside held places is what it finds beside boxes ranked there") {
  ScoredBay bay = rough_bay(9);
  const Corners box = upright(1300, 4660);
  ScoredBay with = bay;
  with.plan.sites.min_suitability = 0.0;
  bay.plan.sites.min_suitability = 0.0;
  add_own(with, box);
  SitesResult placed = with.place();
  REQUIRE(own_of(placed).wrong.empty());
  std::erase_if(placed.ranked, [](const Site& site) { return site.own > 0; });
  twins::FunctionProjector projector = test::flat_projector(bay.scale);
  const auto names = reason_names(bay.plan);
  const std::array<Corners, 1> held{box};
  const test::FlatGeodesy geodesy;
  const ScoredMaps maps = bay.maps();
  const SiteSearch search(bay.plan, bay.grid, maps, bay.rules, bay.near, names, projector, geodesy);
  const auto found = search.best({bay.plan, maps, bay.rules, bay.near, {}}, held, projector);
  REQUIRE(!placed.ranked.empty());
  REQUIRE(found);
  CHECK(found->corners == placed.ranked.front().corners);
  CHECK(found->score == placed.ranked.front().score);
}
