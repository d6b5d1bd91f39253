// SPDX-License-Identifier: Apache-2.0
#include <cmath>

#include "report/html.hpp"
#include "report/parts.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr double kHere_m = 0.5;  // nearer than this it is the same site
constexpr double kSame_ha = 0.005;

std::string value_of(const MovedKey& key, Units units) {
  if (std::isnan(key.value)) {
    return "each shape's own";
  }
  return key.unit == "m" ? in_line(length(key.value), units)
                         : shortest(key.value) + (key.unit.empty() ? "" : " " + key.unit);
}

/// "+12.3 ha (+30.4 acres)"; "no change".
std::string change_of(double ha, Units units) {
  if (std::abs(ha) < kSame_ha) {
    return "no change";
  }
  return (ha < 0.0 ? "less by " : "more by ") + in_line(area(std::abs(ha)), units);
}

std::string best_of(const MovedWater& water, Units units) {
  if (!water.yield_t) {
    return "no site";
  }
  const std::string yield = in_line(crop(*water.yield_t), units);
  if (!water.offset_m) {
    return yield;
  }
  return *water.offset_m < kHere_m
             ? yield + ", same place"
             : yield + ", " + in_line(distance(*water.offset_m), units) + " away";
}

}  // namespace

std::string what_if_table(const ReportData& data) {
  if (data.what_if == nullptr || data.what_if->keys.empty()) {
    return "";
  }
  const WhatIf& all = *data.what_if;
  const Units units = data.plan->report.units;
  const std::string by = percent(all.share);
  Table table{"What if a distance or limit were other",
              {{"Moved"},
               {"As planned", true},
               {"Open water, " + by + " less", true},
               {"Best site, " + by + " less", true},
               {"Open water, " + by + " more", true},
               {"Best site, " + by + " more", true}},
              {},
              ""};
  for (const MovedKey& key : all.keys) {
    table.rows.push_back(
        {text(key.name), value_of(key, units), change_of(key.less.open_ha - all.open_ha, units),
         best_of(key.less, units), change_of(key.more.open_ha - all.open_ha, units),
         best_of(key.more, units)});
  }
  const std::string planned = all.yield_t ? in_line(crop(*all.yield_t), units) : "none";
  return html(table) +
         element("p class=\"note\"",
                 "Each is moved alone; the crop is not grown again. As planned, " +
                     in_line(area(all.open_ha), units) +
                     " of water are open and scored, and the best site's yield is " + planned +
                     ". Yields in this table leave out the crop's own draw-down of nitrogen, "
                     "like the ranking.");
}

}  // namespace tidelot::page
