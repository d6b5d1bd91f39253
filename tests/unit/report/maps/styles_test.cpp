// SPDX-License-Identifier: Apache-2.0
#include "tidelot/report/styles.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "report/folder/output_names.hpp"
#include "report/maps/coded_map.hpp"
#include "report/maps/map_look.hpp"
#include "support/report_fixture.hpp"

namespace tidelot {
namespace {

const page::MapLook& look_of(const std::vector<page::MapLook>& looks, const std::string& map) {
  const auto found = std::find_if(looks.begin(), looks.end(),
                                  [&](const page::MapLook& each) { return each.map == map; });
  REQUIRE(found != looks.end());
  return *found;
}

const page::CodedMap& shown(const std::vector<page::CodedMap>& maps, const std::string& key) {
  const auto found = std::find_if(maps.begin(), maps.end(),
                                  [&](const page::CodedMap& each) { return each.key == key; });
  REQUIRE(found != maps.end());
  return *found;
}

TEST_CASE("every style is among the files that a run may leave", "[report]") {
  const test::ReportFixture bay;
  const auto files = style_files(bay.data());
  REQUIRE(files.size() == 9);
  for (const StyleFile& file : files) {
    CHECK(std::find(kOutputNames.begin(), kOutputNames.end(), file.name) != kOutputNames.end());
  }
}

TEST_CASE("a quantity has the page's ramp over the page's range, also where the page is thinned",
          "[report]") {
  test::ReportFixture bay(60, 70);
  const auto highest = std::max_element(bay.yield.begin(), bay.yield.end(),
                                        [](float a, float b) { return !(a >= b) && !(b != b); });
  *highest = 93.0F;
  const auto looks = page::map_looks(bay.data());
  const auto maps = page::shown_maps(bay.data(), page::sampling_of(bay.grid(), 7));
  for (const auto& [map, key] :
       {std::pair{"yield", "yield"}, {"nitrogen", "nitrogen"}, {"depth_low_water", "depth"}}) {
    const auto& look = look_of(looks, map);
    const auto& page_map = shown(maps, key);
    CHECK(look.steps.front().value == page_map.low);
    CHECK(look.steps.back().value == Approx(page_map.high));
    CHECK(look.steps.front().colour == page_map.ramp.front());
    CHECK(look.steps.back().colour == page_map.ramp.back());
    CHECK(look.steps.size() == page_map.ramp.size());
  }
  CHECK(look_of(looks, "yield").steps.back().value == 100.0);
}

TEST_CASE("water of one value has one step", "[report]") {
  test::ReportFixture bay;
  for (float& day : bay.outplant) {
    day = day != day ? day : 130.0F;
  }
  const auto looks = page::map_looks(bay.data());
  REQUIRE(look_of(looks, "season").steps.size() == 1);
  CHECK(look_of(looks, "season").steps[0].value == 130.0);
}

TEST_CASE("codes have the colours of the page, embedded and beside the map", "[report]") {
  const test::ReportFixture bay;
  const auto styles = style_files(bay.data());
  const auto& colours = style_of(styles, "reason.tif").colours;
  const auto map = page::reason_map(bay.data(), page::sampling_of(bay.grid()));
  const auto looks = page::map_looks(bay.data());
  std::size_t checked = 0;
  for (const page::LookStep& step : look_of(looks, "reason").steps) {
    const auto code = static_cast<std::size_t>(step.value);
    REQUIRE(code < colours.size());
    CHECK(page::Rgb{colours[code].r, colours[code].g, colours[code].b} == step.colour);
    const bool occurs =
        std::find(bay.reasons.begin(), bay.reasons.end(), code) != bay.reasons.end();
    if (occurs && !(map.styles[code].base == page::not_known_style().base)) {
      CHECK(map.styles[code].base == step.colour);
      ++checked;
    }
  }
  CHECK(checked > 3);
  CHECK(style_of(styles, "yield.tif").colours.empty());
  CHECK(style_of(styles, "closed.tif").colours.empty());  // its codes are no index of a table
}

TEST_CASE("what is not known is no colour of the ramps' ends and not that of closed water",
          "[report]") {
  const test::ReportFixture bay;
  const auto looks = page::map_looks(bay.data());
  const auto& steps = look_of(looks, "closed").steps;
  REQUIRE(steps.size() == 5);
  CHECK(steps[0].clear);
  CHECK_FALSE(steps[3].colour == steps[2].colour);
}

}  // namespace
}  // namespace tidelot
