// SPDX-License-Identifier: Apache-2.0
// [[closed]]: where no gear may go.
#include <fmt/format.h>

#include <algorithm>

#include "plan/read_tables.hpp"

namespace tidelot::planfile {
namespace {

/// maps/closed.tif has bits for so many (bit 8 and up).
constexpr std::size_t kMaxRules = 24;

ClosedPlan read_rule(Section& closed) {
  ClosedPlan out;
  out.name = closed.text("name");
  out.file = closed.file("file");
  out.file.layer = closed.text("layer");
  out.file.crs = closed.text("crs");
  out.where = closed.text("where");
  out.setback_m = closed.number("setback_m");
  out.setback_field = closed.text("setback_field");
  out.status_field = closed.text("status_field");
  out.caution = closed.text("effect") == "caution";
  if (closed.given("months")) {
    for (const double month : closed.numbers("months")) {
      out.months |= static_cast<std::uint16_t>(1U << (static_cast<unsigned>(month) - 1U));
    }
  }
  out.food_only = closed.text("only_for") == "food";
  out.sheet = map_sheet(closed.text("sheet"));
  out.rule = closed.text("rule");
  return out;
}

}  // namespace

std::vector<ClosedPlan> read_closed(Reading& reading) {
  std::vector<ClosedPlan> rules;
  const toml::array* tables = reading.root["closed"].as_array();
  for (std::size_t i = 0; tables && i < tables->size(); ++i) {
    Section closed(reading, *tables, "closed", i);
    if (i >= kMaxRules) {
      closed.fail("name", fmt::format("is rule {}; a plan holds {} at most, put those alike into "
                                      "one file",
                                      i + 1, kMaxRules));
    }
    ClosedPlan rule = read_rule(closed);
    if (std::any_of(rules.begin(), rules.end(),
                    [&](const ClosedPlan& other) { return other.name == rule.name; })) {
      closed.fail("name", fmt::format("\"{}\" is taken by another rule; give each its own name",
                                      rule.name));
    }
    rules.push_back(std::move(rule));
  }
  return rules;
}

}  // namespace tidelot::planfile
