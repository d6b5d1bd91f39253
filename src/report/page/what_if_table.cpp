// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "report/parts.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr double kHere_m = 0.5;  // nearer than this it is the same site
constexpr double kSame_ha = 0.005;

std::string value_of(const MovedKey& key, Units units) {
  if (std::isnan(key.value)) {
    return label("what_if.each_shapes_own");
  }
  return key.unit == std::string_view{"m"}
             ? in_line(length(key.value), units)
             : shortest(key.value) + (key.unit.empty() ? "" : " " + key.unit);
}

/// "+12.3 ha (+30.4 acres)"; "no change".
std::string change_of(double ha, Units units) {
  if (std::abs(ha) < kSame_ha) {
    return label("what_if.no_change");
  }
  const std::string by = in_line(area(std::abs(ha)), units);
  return ha < 0.0 ? plain_say("what_if.less_by", by) : plain_say("what_if.more_by", by);
}

std::string best_of(const MovedWater& water, Units units) {
  if (!water.yield_t) {
    return label("what_if.no_site");
  }
  const std::string yield = in_line(crop(*water.yield_t), units);
  if (!water.offset_m) {
    return yield;
  }
  return *water.offset_m < kHere_m
             ? plain_say("what_if.same_place", yield)
             : plain_say("what_if.away", yield, in_line(distance(*water.offset_m), units));
}

}  // namespace

std::string what_if_table(const ReportData& data) {
  if (data.what_if == nullptr || data.what_if->keys.empty()) {
    return "";
  }
  const WhatIf& all = *data.what_if;
  const Units units = data.plan->report.units;
  const std::string by = percent(all.share);
  Table table{label("what_if.what_if_a_distance_or_limit"),
              {{label("what_if.moved")},
               {label("what_if.as_planned"), true},
               {plain_say("what_if.open_water_less", by), true},
               {plain_say("what_if.best_site_less", by), true},
               {plain_say("what_if.open_water_more", by), true},
               {plain_say("what_if.best_site_more", by), true}},
              {},
              ""};
  for (const MovedKey& key : all.keys) {
    table.rows.push_back(
        {text(translated(key.name)), value_of(key, units),
         change_of(key.less.open_ha - all.open_ha, units), best_of(key.less, units),
         change_of(key.more.open_ha - all.open_ha, units), best_of(key.more, units)});
  }
  const std::string planned =
      all.yield_t ? in_line(crop(*all.yield_t), units) : label("what_if.none");
  return html(table) +
         element(
             "p class=\"note\"",
             plain_say("what_if.each_is_moved_alone_the_crop", in_line(area(all.open_ha), units),
                       planned) +
                 (data.plan->sites.own_boxes.empty() ? "" : " " + label("what_if.own_boxes_stay")));
}

}  // namespace tidelot::page
