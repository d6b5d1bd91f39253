// SPDX-License-Identifier: Apache-2.0
#include "report/maps/coded_map.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "report/maps/map_view.hpp"
#include "support/report_fixture.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::page {
namespace {

/// Relative luminance (WCAG 2.1): what a black-and-white copy keeps of a colour.
double luminance(Rgb colour) {
  const auto linear = [](std::uint8_t value) {
    const double v = value / 255.0;
    return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.r) + 0.7152 * linear(colour.g) + 0.0722 * linear(colour.b);
}

TEST_CASE("a small grid is sampled cell by cell", "[report]") {
  const Grid grid{0, 0, 10.0, 3, 2, ""};
  const Sampling sampling = sampling_of(grid);
  CHECK(sampling.cols == 3);
  CHECK(sampling.rows == 2);
  std::vector<std::size_t> cells;
  sampling.each([&](std::size_t sample, std::size_t cell) {
    CHECK(sample == cells.size());
    cells.push_back(cell);
  });
  CHECK(cells == std::vector<std::size_t>{0, 1, 2, 3, 4, 5});
}

TEST_CASE("a large grid is thinned, evenly and in both directions alike", "[report]") {
  const Grid grid{0, 0, 10.0, 4800, 1200, ""};
  const Sampling sampling = sampling_of(grid, 1200);
  CHECK(sampling.cols == 1200);
  CHECK(sampling.rows == 300);
  CHECK(sampling.row_begin.front() + sampling.col.front() == grid.index(2, 2));
  CHECK(sampling.row_begin.back() + sampling.col.back() == grid.index(4798, 1198));
}

TEST_CASE("a strip one cell high keeps its row", "[report]") {
  const Grid grid{0, 0, 10.0, 5000, 1, ""};
  CHECK(sampling_of(grid).rows == 1);
}

TEST_CASE("codes tell land, not known, closed and values apart", "[report]") {
  test::ReportFixture bay(60, 70);
  bay.reasons[0] = 0;  // outside the outline
  const Sampling sampling = sampling_of(bay.grid());
  const CodedMap map = shown_maps(bay.data(), sampling)[0];
  REQUIRE(map.key == "suitability");
  CHECK(map.codes[0] == code::kOutside);
  std::size_t seen = 0;
  for (std::size_t i = 1; i < map.codes.size(); ++i) {
    const std::uint8_t each = map.codes[i];
    if (bay.reasons[i] == reason::kLand) {
      CHECK(each == code::kLand);
    } else if (std::isnan(bay.suitability[i])) {
      CHECK(each == code::kNotKnown);
    } else if (bay.closed[i] != 0) {
      CHECK(each == code::kSpecial);
    } else {
      CHECK(value_of(map, each) == Approx(bay.suitability[i]).margin(0.5 / 251.0 + 1e-6));
      ++seen;
    }
  }
  CHECK(seen > 100);
}

TEST_CASE("closed water that is not known otherwise is shown closed", "[report]") {
  test::ReportFixture bay;
  const auto cell = static_cast<std::size_t>(
      std::find(bay.reasons.begin(), bay.reasons.end(), reason::kDepthUnknown) -
      bay.reasons.begin());
  bay.closed[cell] = 1U << 8U;
  const CodedMap map = shown_maps(bay.data(), sampling_of(bay.grid()))[0];
  CHECK(map.codes[cell] == code::kSpecial);
}

TEST_CASE("yield that is lost keeps its sign", "[report]") {
  test::ReportFixture bay;
  const auto cell = static_cast<std::size_t>(
      std::find_if(bay.yield.begin(), bay.yield.end(), [](float v) { return v > 0; }) -
      bay.yield.begin());
  bay.yield[cell] = -0.7F;
  const CodedMap map = shown_maps(bay.data(), sampling_of(bay.grid()))[1];
  REQUIRE(map.key == "yield");
  CHECK(map.low == Approx(-1.0));
  CHECK(value_of(map, map.codes[cell]) == Approx(-0.7).margin(0.03));
}

TEST_CASE("water without a season is not water without data", "[report]") {
  test::ReportFixture bay;
  const auto cell = static_cast<std::size_t>(
      std::find_if(bay.yield.begin(), bay.yield.end(), [](float v) { return v > 0; }) -
      bay.yield.begin());
  bay.yield[cell] = 0.0F;
  bay.outplant[cell] = bay.last_haul[cell] = std::nanf("");
  bay.reasons[cell] = reason::kTooCold;
  const CodedMap map = shown_maps(bay.data(), sampling_of(bay.grid()))[4];
  REQUIRE(map.key == "season");
  CHECK(map.codes[cell] == code::kSpecial);
}

TEST_CASE("a season over the new year has as many days as it has", "[report]") {
  test::ReportFixture bay;
  const auto season = [&](float outplant, float last_haul) {
    for (std::size_t i = 0; i < bay.outplant.size(); ++i) {
      if (!std::isnan(bay.outplant[i])) {
        bay.outplant[i] = outplant;
        bay.last_haul[i] = last_haul;
      }
    }
    return shown_maps(bay.data(), sampling_of(bay.grid()))[4];
  };
  CHECK(season(275.0F, 274.0F).low == 365.0);  // 2 October to 1 October
  CHECK(season(305.0F, 90.0F).high == 151.0);  // 1 November to 31 March
  CHECK(season(1.0F, 365.0F).low == 365.0);
  CHECK(season(120.0F, 120.0F).low == 1.0);
  test::PngTwin pictures;
  const std::string shown = legend(season(120.0F, 129.0F), pictures);
  CHECK(shown.find("<div class=\"ticks\"><span>10</span></div>") != std::string::npos);
}

TEST_CASE("days of the read-out come back whole", "[report]") {
  const test::ReportFixture bay;
  const auto maps = read_out_maps(bay.data(), sampling_of(bay.grid()));
  REQUIRE(maps.size() == 3);
  for (std::size_t i = 0; i < bay.outplant.size(); ++i) {
    if (!std::isnan(bay.outplant[i])) {
      CHECK(value_of(maps[0], maps[0].codes[i]) == Approx(bay.outplant[i]));
    }
  }
}

TEST_CASE("waves are shown where the plan names winds, and only there", "[report]") {
  test::ReportFixture bay;
  const Sampling sampling = sampling_of(bay.grid());
  ReportData data = bay.data();
  const auto shows_waves = [&] {
    const auto maps = shown_maps(data, sampling);
    return std::any_of(maps.begin(), maps.end(),
                       [](const CodedMap& m) { return m.key == "waves"; });
  };
  CHECK_FALSE(shows_waves());
  WaveMaps waves(bay.depth.size());
  waves.height_50y_m.assign(bay.depth.size(), 0.75F);
  data.maps.waves = &waves;
  CHECK(shows_waves());
}

TEST_CASE("the suitability says how the criteria were combined", "[report]") {
  test::ReportFixture bay;
  const Sampling sampling = sampling_of(bay.grid());
  CHECK_THAT(shown_maps(bay.data(), sampling)[0].about, Catch::Contains("weighted geometric mean"));
  bay.plan.combine = Combine::minimum;
  CHECK_THAT(shown_maps(bay.data(), sampling)[0].about, Catch::Contains("lowest of the criteria"));
}

TEST_CASE("maps without a single value are still maps", "[report]") {
  test::ReportFixture bay;
  for (auto* map :
       {&bay.suitability, &bay.yield, &bay.nitrogen, &bay.depth, &bay.outplant, &bay.last_haul}) {
    std::fill(map->begin(), map->end(), std::nanf(""));
  }
  for (const CodedMap& map : shown_maps(bay.data(), sampling_of(bay.grid()))) {
    CHECK(std::isfinite(map.low));
    CHECK(std::isfinite(map.high));
  }
}

TEST_CASE("classes differ in look and are listed by their size", "[report]") {
  const test::ReportFixture bay;
  const CodedMap map = reason_map(bay.data(), sampling_of(bay.grid()));
  REQUIRE(map.entries.size() > 4);
  for (std::size_t i = 0; i + 1 < map.entries.size(); ++i) {
    const Style& a = map.entries[i].style;
    const Style& b = map.entries[i + 1].style;
    CHECK((a.texture != b.texture || std::abs(luminance(a.base) - luminance(b.base)) > 0.1));
  }
  const auto count_of = [&](const std::string& name) {
    const auto code = std::find(bay.reason_texts.begin(), bay.reason_texts.end(), name) -
                      bay.reason_texts.begin();
    return std::count(map.codes.begin(), map.codes.end(), static_cast<std::uint8_t>(code));
  };
  CHECK(count_of(map.entries[0].label) >= count_of(map.entries[1].label));
}

TEST_CASE("whatever is not known looks so on the map of reasons, be it most of the water",
          "[report]") {
  test::ReportFixture bay;
  const auto code = GENERATE(as<std::uint8_t>{}, reason::kCurrentUnknown, reason::kSlopeUnknown,
                             reason::kFirstRuleUnknown);
  bay.reason_texts.resize(reason::kFirstRuleUnknown + 1);
  bay.reason_texts[code] = "this is not known";
  std::replace_if(
      bay.reasons.begin(), bay.reasons.end(),
      [](std::uint8_t each) { return each >= reason::kNothing && each != reason::kFirstRule; },
      code);
  const CodedMap map = reason_map(bay.data(), sampling_of(bay.grid()));
  REQUIRE(std::count(map.codes.begin(), map.codes.end(), code) > 100);
  CHECK(map.styles[code].base == not_known_style().base);
  CHECK(map.styles[code].texture == not_known_style().texture);
  for (const auto& entry : map.entries) {
    CHECK(entry.label != bay.reason_texts[code]);
  }
}

TEST_CASE("every rule that closes a place is told", "[report]") {
  test::ReportFixture bay;
  bay.closed[7] = 1U << 8U | 1U;
  bay.closed[8] = 1U << 9U;
  bay.closed[9] = kClosedNotWater;
  bay.closed[10] = kClosedUnknown;
  const CodedMap map = closed_map(bay.data(), sampling_of(bay.grid()));
  const auto bits = [&](std::size_t cell) { return map.sets.at(map.codes[cell]); };
  CHECK(bits(7) == (1U << 8U | 1U));
  CHECK(bits(8) == 1U << 9U);
  CHECK(bits(9) == 0);
  CHECK(bits(10) == 0);
}

TEST_CASE("more sets of rules than codes are told as such", "[report]") {
  test::ReportFixture bay;
  for (std::size_t i = 0; i < 300; ++i) {
    bay.closed[i] = static_cast<std::uint32_t>(i + 1) << 8U;
  }
  const CodedMap map = closed_map(bay.data(), sampling_of(bay.grid()));
  CHECK(map.sets.size() == 255);
  CHECK(map.codes[299] == 255);
  CHECK(map.sets.at(map.codes[100]) == 101U << 8U);
}

TEST_CASE("a map's range is round in the first unit of the plan", "[report]") {
  test::ReportFixture bay;
  for (float& depth : bay.depth) {
    depth = std::isnan(depth) ? depth : std::min(depth, 7.9F);
  }
  const auto depth_map = [&](ReportPlan::Units units) {
    bay.plan.report.units = units;
    return shown_maps(bay.data(), sampling_of(bay.grid()))[3];
  };
  const CodedMap both = depth_map(ReportPlan::Units::both);
  REQUIRE(both.units.size() == 2);
  CHECK(both.high == Approx(10.0));
  CHECK(both.units[1].name == "ft");
  CHECK(both.units[1].factor == Approx(1.0 / 0.3048));
  CHECK(depth_map(ReportPlan::Units::metric).units.size() == 1);
  const CodedMap us = depth_map(ReportPlan::Units::us);
  REQUIRE(us.units.size() == 1);
  CHECK(us.high / 0.3048 == Approx(50.0));  // 7.9 m are 25.9 ft
}

TEST_CASE("confidence is shown where there are members, and only there", "[report]") {
  test::ReportFixture bay;
  const Sampling sampling = sampling_of(bay.grid());
  CHECK(shown_maps(bay.data(), sampling)[1].key == "yield");
  const std::vector<float> confidence(bay.suitability.size(), 0.5F);
  ReportData data = bay.data();
  data.maps.confidence = confidence;
  const CodedMap map = shown_maps(data, sampling)[1];
  CHECK(map.key == "confidence");
  const auto water = std::find_if(bay.reasons.begin(), bay.reasons.end(),
                                  [](std::uint8_t each) { return each >= reason::kNothing; });
  REQUIRE(water != bay.reasons.end());
  CHECK(value_of(map, map.codes[static_cast<std::size_t>(water - bay.reasons.begin())]) ==
        Approx(0.5).margin(0.003));
}

}  // namespace
}  // namespace tidelot::page
