// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "tidelot/plan/plan.hpp"
#include "unit/plan/plan_text.hpp"

using namespace tidelot;
using testing::kSmallest;
using testing::plus;
using testing::with;

namespace {

std::size_t count(const std::string& text, const std::string& said) {
  const std::vector<std::string> warnings = parse_plan(text, "p.toml").warnings;
  return static_cast<std::size_t>(
      std::count_if(warnings.begin(), warnings.end(), [&](const std::string& line) {
        return line.find(said) != std::string::npos && line.find('\n') == std::string::npos;
      }));
}

bool warns(const std::string& text, const std::string& said) { return count(text, said) > 0; }

}  // namespace

TEST_CASE("Tide levels that are not given are said to be assumed") {
  CHECK(warns(kSmallest, "depth.tidal_range_m is not given: a tidal range of 2.1 m is assumed"));
  CHECK(warns(kSmallest, "depth.lowest_tide_m is not given: a lowest tide of -0.4 m is assumed"));
  const std::string given =
      with("datum = \"MLLW\"", "datum = \"MLLW\"\ntidal_range_m = 2.1\nlowest_tide_m = 0");
  CHECK_FALSE(warns(given, "tidal_range_m"));
  CHECK_FALSE(warns(given, "lowest_tide_m"));
}

TEST_CASE("A constant for a property of the season is named, but not for the current") {
  CHECK(count(kSmallest, "the same all year") == 4);
  CHECK_FALSE(warns(kSmallest, "water.current"));
  const std::string monthly =
      with("constant = 28", "monthly = [29,28,28,27,27,28,29,29,30,30,29,29]");
  CHECK(count(monthly, "the same all year") == 3);
  CHECK_FALSE(warns(monthly, "water.salinity"));
}

TEST_CASE("Lines closer than any permit are named") {
  CHECK(warns(plus("[farm]\nline_gap_m = 5.9\n"), "5.9 m is tighter than any permit seen"));
  CHECK_FALSE(warns(plus("[farm]\nline_gap_m = 6\n"), "tighter"));
}

TEST_CASE("Too few members to tell a spread are named") {
  CHECK(warns(plus("[uncertainty]\ndraws = 8\n"), "uncertainty.draws = 8 tells little"));
  CHECK_FALSE(warns(plus("[uncertainty]\ndraws = 20\n"), "uncertainty"));
  CHECK_FALSE(warns(plus("[uncertainty]\ndraws = 0\n"), "uncertainty"));
  CHECK_FALSE(warns(kSmallest, "uncertainty"));
}

TEST_CASE("A rule without its text is named") {
  const std::string closed = "[[closed]]\nname = \"dock\"\nfile = \"a.gpkg\"\n";
  CHECK(warns(plus(closed), "closed \"dock\" has no rule text"));
  CHECK_FALSE(warns(plus(closed + "rule = \"harbor rules, 3\"\n"), "rule text"));
}

TEST_CASE("A shift of the datum that looks mistaken is named") {
  CHECK(warns(with("\"MLLW\"", "\"MLLW\"\nlow_water_m = 1.1"), "is that meant?"));
  CHECK(warns(with("\"MLLW\"", "\"MSL\"\nlow_water_m = 1.1"), "takes a negative number"));
  CHECK_FALSE(warns(with("\"MLLW\"", "\"MSL\"\nlow_water_m = -1.1"), "low_water_m"));
  CHECK_FALSE(warns(with("\"MLLW\"", "\"MLLW\"\nlow_water_m = 0"), "low_water_m"));
  CHECK_FALSE(warns(with("\"MLLW\"", "\"MSL\"\nlow_water_m = \"lw.tif\""), "low_water_m"));
}

TEST_CASE("A mass of nitrogen that does not say as N is named") {
  CHECK(warns(with("constant = 5, unit = \"umol/L\"", "constant = 0.07, unit = \"mg/L\""), "as N"));
  CHECK_FALSE(warns(
      with("constant = 5, unit = \"umol/L\"", "constant = 0.07, unit = \"mg/L as N\""), "as N"));
  CHECK_FALSE(warns(kSmallest, "as N"));
}

TEST_CASE("A landing outside the bounds is named with its likely slip") {
  const auto landing = [](const std::string& at) {
    return plus("[sites]\nlanding = " + at + "\n");
  };
  CHECK_FALSE(warns(landing("[-30.05, 41.05]"), "sites.landing"));
  CHECK(warns(landing("[30.05, 41.05]"), "lost its sign"));
  CHECK(warns(landing("[41.05, -30.05]"), "longitude comes before latitude"));
  CHECK(warns(landing("[-31.05, 41.05]"), "sites.landing lies outside area.bounds"));
}

TEST_CASE("Sites too short for any line, or narrower than a cell, are named") {
  // 0.2 ha, 3:1 is 77 m long; margins 30 m, anchor legs 2 x 3 x (3.2 + 2.1) m leave 16 m. 0.1 ha is
  // 55 m long and leaves none.
  CHECK_FALSE(warns(plus("[sites]\narea_ha = 0.2\n"), "no room for a line"));
  CHECK(warns(plus("[sites]\narea_ha = 0.1\n"), "a site 55 m long has no room for a line"));
  CHECK_FALSE(warns(plus("[sites]\narea_ha = 0.1\nshape = \"line\"\n"), "no room for a line"));
  CHECK(warns(with("10.0", "64"), "a cell of 64 m is wider than a site (63.2 m)"));
  CHECK_FALSE(warns(with("10.0", "63"), "wider than a site"));
}

TEST_CASE("A fixed line that comes out of the water is named; a floating one never does") {
  const std::string said = "comes out of the water at the lowest tide";
  CHECK(warns(plus("[farm]\nline = \"fixed\"\nline_depth_m = 0.3\n"), said));
  CHECK_FALSE(warns(plus("[farm]\nline = \"fixed\"\nline_depth_m = 0.4\n"), said));
  CHECK_FALSE(warns(plus("[farm]\nline_depth_m = 0.3\n"), said));
}

TEST_CASE("A load without kind or year, and a mark with a slip in its position, are named") {
  const std::string load = "[load]\nnitrogen_kg_per_year = 52000\n";
  CHECK(warns(plus(load), "load: a share of it says little"));
  CHECK(warns(plus(load + "kind = \"total N\"\n"), "load: a share of it says little"));
  CHECK_FALSE(warns(plus(load + "kind = \"total N\"\nyear = 2024\n"), "load"));
  const auto mark = [](const std::string& at) {
    return plus("[[report.marks]]\nname = \"light\"\nat = " + at + "\n");
  };
  CHECK(warns(mark("[30.05, 41.05]"), "report.marks: light: has the longitude lost its sign?"));
  CHECK(warns(mark("[41.05, -30.05]"), "report.marks: light: longitude comes before latitude"));
  CHECK_FALSE(warns(mark("[-30.5, 41.05]"), "report.marks"));  // a mark may lie off the map
}
