// SPDX-License-Identifier: Apache-2.0
// [[near]]: what should not lie near a site, although no water is closed by it.
#include <fmt/format.h>

#include <algorithm>

#include "plan/read_tables.hpp"

namespace tidelot::planfile {
namespace {

NearPlan read_test(Section& near) {
  NearPlan out;
  out.name = near.text("name");
  out.file = near.file("file");
  out.file.layer = near.text("layer");
  out.file.crs = near.text("crs");
  out.where = near.text("where");
  out.distance_m = near.number("distance_m");
  out.count = static_cast<int>(near.whole("count"));
  out.closes = near.text("effect") == "close";
  out.sheet = map_sheet(near.text("sheet"));
  out.rule = near.text("rule");
  return out;
}

}  // namespace

std::vector<NearPlan> read_near(Reading& reading) {
  std::vector<NearPlan> tests;
  const toml::array* tables = reading.root["near"].as_array();
  for (std::size_t i = 0; tables && i < tables->size(); ++i) {
    Section near(reading, *tables, "near", i);
    NearPlan test = read_test(near);
    if (std::any_of(tests.begin(), tests.end(),
                    [&](const NearPlan& other) { return other.name == test.name; })) {
      near.fail("name", fmt::format("\"{}\" is taken by another [[near]]; give each its own name",
                                    test.name));
    }
    tests.push_back(std::move(test));
  }
  return tests;
}

}  // namespace tidelot::planfile
